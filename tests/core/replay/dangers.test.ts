/** Which hazards somebody meets where, and what is left behind: one rule a test. */
import { describe, expect, test } from 'vitest';
import { dangersIn, inside, lockout, saw } from './danger-lines.js';

const met = ['told: blade in inside at first do'];

describe('what is done', () => {
    test('in a zone meets what the zone exposes', () => {
        expect(dangersIn(saw('step first { do "x" in inside go done }'))).toEqual(met);
    });

    test('nowhere in particular meets nothing', () => {
        expect(dangersIn(saw('step first { do "x" go done }'))).toEqual([]);
    });

    const part = `${inside} part belt in inside part lamp`;

    test('at a part meets what the zones of the part expose', () => {
        expect(dangersIn(saw('step first { do "x" at belt go done }', part))).toEqual(met);
        expect(dangersIn(saw('step first { do "x" at lamp go done }', part))).toEqual([]);
    });

    test('in a zone is not done in that of the part that it is at', () => {
        const zones = `${part} zone outside {}`;
        expect(dangersIn(saw('step first { do "x" at belt in outside go done }', zones))).toEqual([]);
    });

    test('meets also what the zones of the parts that it replaces expose', () => {
        const zones = `${part} zone outside {}`;
        expect(dangersIn(saw('step first { do "x" in outside replaces belt go done }', zones))).toEqual(met);
    });

    test('meets what is there before its settings and what is there after them', () => {
        const on = 'zone inside { exposes blade while switch on }';
        const off = 'zone inside { exposes blade while switch off }';
        const twice =
            'step first { do "x" in inside sets switch on go second } step second { do "y" in inside go done }';
        expect(dangersIn(saw(twice, on))).toEqual([...met, 'told: blade in inside at second do']);
        expect(dangersIn(saw(twice, off))).toEqual(met);
    });

    test('meets it also where it cannot be done', () => {
        const lamp = `${inside} part lamp { fault dead } flow line: lamp -> [light]
            test light { observe normal yes absent no shows stopped }`;
        const tree =
            'complaint light absent step first { do "x" in inside using lamp sets switch on cannot be done -> done go done }';
        expect(dangersIn(saw(tree, lamp), { fault: 'lamp.dead' })).toEqual(met);
    });
});

describe('a zone', () => {
    const tree = 'step first { do "x" in inside go done }';

    test('exposes a hazard in those builds that have the zone, the hazard and the exposure', () => {
        const guarded = (zone: string, hazard: string, exposure: string) =>
            saw(tree, `hazard heat ${hazard} { thermal } zone inside ${zone} { exposes heat ${exposure} }`);
        const heat = ['told: heat in inside at first do'];
        const limits: readonly (readonly [string, string, string])[] = [
            ['for small', '', ''],
            ['', 'for small', ''],
            ['', '', 'for small'],
        ];
        for (const guards of limits) {
            expect(dangersIn(guarded(...guards), { build: ['small'] })).toEqual(heat);
            expect(dangersIn(guarded(...guards), { build: ['large'] })).toEqual([]);
        }
    });

    test('of a part exposes only in the builds in which the part is in it', () => {
        const text = saw('step first { do "x" at belt go done }', `${inside} part belt { in inside for small }`);
        expect(dangersIn(text, { build: ['small'] })).toEqual(met);
        expect(dangersIn(text, { build: ['large'] })).toEqual([]);
    });

    test('exposes a hazard while it says so, and no fault counts for that', () => {
        const members = (state: string) => `zone inside { exposes blade while ${state} } part motor { fault open }
            test turns { observe normal yes absent no shows stopped } flow power: motor -> [turns]`;
        const complaint = (state: string) => saw(`complaint turns absent ${tree}`, members(state));
        expect(dangersIn(complaint('power flowing'), { fault: 'motor.open' })).toEqual(met);
        expect(dangersIn(complaint('not power flowing'), { fault: 'motor.open' })).toEqual([]);
    });
});

describe('a hazard', () => {
    test('is under control while a gate that controls it in the build is closed', () => {
        const members = `${inside} gate lockout { controls blade for small }`;
        const tree = `step first { do "x" in inside gate lockout go second } step second { do "y" in inside go third }
            step third { restore lockout do "z" in inside go done }`;
        const outside = ['told: blade in inside at first do', 'told: blade in inside at third do'];
        expect(dangersIn(saw(tree, members), { build: ['small'] })).toEqual([outside[0], `${outside[1] ?? ''}, lost`]);
        expect(dangersIn(saw(tree, members), { build: ['large'] })).toEqual([
            outside[0],
            'told: blade in inside at second do',
            outside[1],
        ]);
    });

    test('is not under control where the build lacks the gate', () => {
        const text = saw(
            'step first { gate lockout do "x" in inside go done }',
            `${inside} gate lockout for small { controls blade }`,
        );
        expect(dangersIn(text, { build: ['small'] })).toEqual([]);
        expect(dangersIn(text, { build: ['large'] })).toEqual(met);
    });

    test('is safe after a wait until it is, and after no other wait', () => {
        expect(dangersIn(saw('step first { wait 5 s until blade safe do "x" in inside go done }'))).toEqual([]);
        expect(dangersIn(saw('step first { wait 5 s do "x" in inside go done }'))).toEqual(met);
    });

    test('is not safe any more once its gate is restored', () => {
        const tree = 'step first { wait 5 s until blade safe gate lockout restore lockout do "x" in inside go done }';
        expect(dangersIn(saw(tree))).toEqual(['told: blade in inside at first do, lost']);
    });
});

describe('the equipment starts', () => {
    const members = (flow: string, more = '') => `${inside} hazard mains { electrical } supply plug carries mains
        part motor { fault open } part lamp ${more}
        gate unplug { controls mains restore "x" sets switch on } gate look { permits measuring mains restore "x" sets switch on }
        gate stop { controls mains shut-down "x" sets switch on } test turns { observe normal yes absent no shows stopped }
        flow power: plug -> ${flow} -> [turns]`;
    const safe = (statements: string, flow = 'motor when switch on', more = '') =>
        saw(
            `complaint turns absent step first { wait 5 s until blade safe ${statements} do "x" in inside go done }`,
            members(flow, more),
        );
    const lost = [`${met[0] ?? ''}, lost`];

    test('where a setting lets a flow carry something that carried nothing before', () => {
        expect(dangersIn(safe('do "y" sets switch on'))).toEqual(lost);
    });

    test('not where the flow has carried something before, or carries nothing after it', () => {
        expect(dangersIn(safe('do "y" sets switch on', 'motor'))).toEqual([]);
        expect(dangersIn(safe('do "y" sets switch on', 'motor when switch off'))).toEqual([]);
        expect(dangersIn(safe('do "y" sets switch on', 'motor when mains isolated'))).toEqual([]);
        expect(dangersIn(safe('do "y" sets switch off'))).toEqual([]);
    });

    test('whatever a fault does to the flow', () => {
        expect(dangersIn(safe('do "y" sets switch on'), { fault: 'motor.open' })).toEqual(lost);
        const other = 'flow glow: lamp when (power flowing and switch on)';
        const text = safe('do "y" sets switch on', 'motor', other);
        expect(dangersIn(text, { fault: 'motor.open' })).toEqual(lost);
    });

    test('where a gate that controls is restored: by its settings and its opening together', () => {
        expect(dangersIn(safe('restore unplug'))).toEqual(lost);
        expect(dangersIn(safe('gate unplug restore unplug'))).toEqual(lost);
        expect(dangersIn(safe('gate unplug restore unplug', 'motor'))).toEqual(lost);
        expect(dangersIn(safe('gate unplug do "y" sets switch on'))).toEqual([]);
    });

    test('not where a gate is restored that controls nothing, and not where a gate is closed', () => {
        expect(dangersIn(safe('restore look'))).toEqual([]);
        expect(dangersIn(safe('gate stop', 'lamp when switch on'))).toEqual([]);
    });

    test('does not take away what a gate controls', () => {
        const text = safe('gate guard do "y" sets switch on', 'motor when switch on', 'gate guard { controls blade }');
        expect(dangersIn(text)).toEqual([]);
    });
});

describe('a question', () => {
    const look = 'test look in inside { observe normal yes absent no }';
    const asks = (members: string, before = '') =>
        saw(`step first { ${before} test look { normal, absent -> done } }`, `${inside} ${lockout} ${members}`);

    test('meets what the zones of its test expose', () => {
        expect(dangersIn(asks(look))).toEqual(['told: blade in inside at first ask']);
        expect(dangersIn(asks(look, 'gate lockout'))).toEqual([]);
    });

    test('meets nothing in the zones of its readings: whoever reads them does, in the builds that have them', () => {
        const readings = `test volts in inside for small { measure voltage DC normal 1 V .. 2 V absent otherwise }
            test look { calculate voltage from volts normal 1 V .. 2 V absent otherwise }`;
        expect(dangersIn(asks(readings), { build: ['small'] })).toEqual([]);
        const read = asks(readings, 'read volts');
        expect(dangersIn(read, { build: ['small'] })).toEqual(['told: blade in inside at first read']);
        expect(dangersIn(read, { build: ['large'] })).toEqual([]);
    });

    test('meets nothing where the build lacks the test', () => {
        const text = asks('test look in inside for small { observe normal yes absent no }');
        expect(dangersIn(text, { build: ['small'] })).toEqual(['told: blade in inside at first ask']);
        expect(dangersIn(text, { build: ['large'] })).toEqual([]);
    });

    test('counts as asked in the state in which the technician comes to it', () => {
        const needing = 'test look in inside { observe needs blade isolated normal yes absent no }';
        expect(dangersIn(asks(needing))).toContain('told: blade in inside at first ask');
    });

    describe('that measures', () => {
        const measured = 'test look in inside { measure voltage DC normal 1 V .. 2 V absent otherwise }';
        const live = 'gate live { permits measuring blade for small } gate charge { permits charging blade }';
        const small: { readonly build: readonly string[] } = { build: ['small'] };

        test('may meet what a gate earlier in the step permits for measuring in the build', () => {
            expect(dangersIn(asks(`${measured} ${live}`, 'gate live'), small)).toEqual([]);
            expect(dangersIn(asks(`${measured} ${live}`, 'gate live'), { build: ['large'] })).toHaveLength(1);
            expect(dangersIn(asks(`${measured} ${live}`, 'gate live for large'), small)).toHaveLength(1);
            expect(dangersIn(asks(`${measured} ${live}`, 'gate charge'), small)).toHaveLength(1);
        });

        test('may not where the gate was used in a step before', () => {
            const steps = 'step first { gate live go second } step second { test look { normal, absent -> done } }';
            const text = saw(steps, `${inside} ${measured} ${live}`);
            expect(dangersIn(text, small)).toEqual(['told: blade in inside at second ask']);
        });

        test('alone may: what is looked at or done is not permitted', () => {
            expect(dangersIn(asks(`${look} ${live}`, 'gate live'), small)).toHaveLength(1);
            expect(dangersIn(asks(`${measured} ${live}`, 'gate live do "x" in inside'), small)).toEqual(met);
        });
    });
});

describe('a repair', () => {
    const belt = (repairs: string, ofFault = '') =>
        `${inside} ${lockout} part belt { in inside fault torn { ${ofFault} } ${repairs} }`;
    const concludes = (members: string, end = 'belt.torn', before = '') =>
        saw(`step first { ${before} go bad-belt } conclude bad-belt { ${end} }`, members);
    const hurt = ['told: blade in inside at the repair of belt (bad-belt)'];

    test('meets what the zones of the part expose', () => {
        expect(dangersIn(concludes(belt('replace "x"')))).toEqual(hurt);
    });

    test('is done under its gates, which need not be closed before', () => {
        expect(dangersIn(concludes(belt('replace "x" under lockout')))).toEqual([]);
    });

    test('is done under those gates only that the build has', () => {
        const members = belt('replace "x" under lockout').replace('gate lockout', 'gate lockout for small');
        expect(dangersIn(concludes(members), { build: ['small'] })).toEqual([]);
        expect(dangersIn(concludes(members), { build: ['large'] })).toEqual(hurt);
    });

    test('may open what covers its part, but for what a closed gate has set', () => {
        const members = (repair: string) =>
            belt(repair)
                .replace('exposes blade', 'exposes blade while lid open')
                .concat(' condition lid { shut open } hazard mains { electrical }')
                .concat(' gate stop { controls mains shut-down "y" sets lid shut }')
                .concat(' gate look { permits measuring mains shut-down "y" sets lid shut }');
        expect(dangersIn(concludes(members('replace "x"')))).toEqual(hurt);
        expect(dangersIn(concludes(members('replace "x" under stop')))).toEqual([]);
        expect(dangersIn(concludes(members('replace "x"'), 'belt.torn', 'gate stop'))).toEqual([]);
        expect(dangersIn(concludes(members('replace "x" under look')))).toEqual(hurt);
    });

    test('looks at what depends on a hazard with its gates closed', () => {
        const members = belt('replace "x" under unplug')
            .replace('exposes blade', 'exposes blade while power flowing')
            .concat(' hazard mains { electrical } gate unplug { controls mains } part lamp flow power: mains -> lamp');
        expect(dangersIn(concludes(members))).toEqual([]);
    });

    test('keeps the gates that were closed before', () => {
        expect(dangersIn(concludes(belt('replace "x"'), 'belt.torn', 'gate lockout'))).toEqual([]);
    });

    test('is the first that the build has: of the end, then of the fault, then of the part', () => {
        const bare = 'repair "x"';
        const under = 'replace "x" under lockout';
        expect(dangersIn(concludes(belt(under, bare), `belt.torn ${under}`))).toEqual([]);
        expect(dangersIn(concludes(belt(under, under), `belt.torn ${bare}`))).toEqual(hurt);
        expect(dangersIn(concludes(belt(bare, under)))).toEqual([]);
        expect(dangersIn(concludes(belt(under, bare)))).toEqual(hurt);
        expect(dangersIn(concludes(belt(under, `${bare} for small`)), { build: ['large'] })).toEqual([]);
    });

    test('is done for each fault that is named and that the build has', () => {
        const members = belt('replace "x"').replace('fault torn', 'fault torn for small');
        expect(dangersIn(concludes(members), { build: ['small'] })).toEqual(hurt);
        expect(dangersIn(concludes(members), { build: ['large'] })).toEqual([]);
        expect(dangersIn(concludes(belt('replace "x"'), 'belt.torn for small'), { build: ['large'] })).toEqual([]);
    });

    test('is not done where none is written, and not at a referral', () => {
        expect(dangersIn(concludes(belt('')))).toEqual([]);
        const refers = saw('step first { go ask } refer ask { belt.torn }', belt('replace "x"'));
        expect(dangersIn(refers)).toEqual([]);
    });
});

describe('a referral', () => {
    const refers = (before: string, leaves = '') =>
        saw(
            `step first { ${before} go ask } refer ask { ${leaves} }`,
            `${inside} ${lockout} condition lid { shut open off }`,
        );

    test('must not leave a gate closed unless it says so in the build', () => {
        expect(dangersIn(refers('gate lockout'))).toEqual(['told: ask leaves lockout closed']);
        expect(dangersIn(refers('gate lockout restore lockout'))).toEqual([]);
        expect(dangersIn(refers('gate lockout', 'leaves gate lockout closed'))).toEqual([]);
        const small = refers('gate lockout', 'leaves gate lockout closed for small');
        expect(dangersIn(small, { build: ['large'] })).toEqual(['told: ask leaves lockout closed']);
    });

    test('must not leave a condition at another value than its first unless it says so', () => {
        expect(dangersIn(refers('do "x" sets lid open'))).toEqual(['told: ask leaves lid open']);
        expect(dangersIn(refers('do "x" sets lid open do "y" sets lid shut'))).toEqual([]);
        expect(dangersIn(refers('do "x" sets lid open', 'leaves lid open'))).toEqual([]);
        expect(dangersIn(refers('do "x" sets lid open', 'leaves lid off'))).toEqual(['told: ask leaves lid open']);
        const small = refers('do "x" sets lid open', 'leaves lid open for small');
        expect(dangersIn(small, { build: ['large'] })).toEqual(['told: ask leaves lid open']);
    });

    test('may leave what it says, and need not', () => {
        expect(dangersIn(refers('', 'leaves lid open leaves gate lockout closed'))).toEqual([]);
    });

    test('alone leaves something: a conclusion puts all back', () => {
        const members = `${inside} ${lockout} part belt { fault torn }`;
        const concludes = saw(
            'step first { gate lockout do "x" sets switch on go end } conclude end { belt.torn }',
            members,
        );
        expect(dangersIn(concludes)).toEqual([]);
    });
});
