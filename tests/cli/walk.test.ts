/** The verb `walk`: a tree gone through with answers given at once, and with answers typed line by line. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { linesOf } from '../../cli/src/lines-of.js';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { percent } from '../../cli/src/walking/walk-text.js';
import { root } from '../house/project.mjs';
import { cleanFiles, makeFolder, run, silent } from './support.js';

const extractor = join(root, 'examples/dust-extractor');

/** Walks a tree of the dust extractor and gives the lines of each place, without the first line. */
async function walk(words: readonly string[]): Promise<string[][]> {
    const { status, output, messages } = await run(['walk', ...words], { folder: extractor });
    expect({ status, messages }).toEqual({ status: 0, messages: '' });
    const [first, ...lines] = output.split('\n');
    expect(first).toBe(safetyNotice());
    return lines
        .join('\n')
        .split('\n\n')
        .map(block => block.trimEnd().split('\n'));
}

/** Types lines and gives the replies to them, the start first. */
async function type(words: readonly string[], ...lines: readonly string[]): Promise<string[][]> {
    const input = lines.map(line => `${line}\n`).join('');
    const { status, output } = await run(['walk', ...words], { folder: extractor, input });
    expect(status).toBe(0);
    return output.split('\n\n').map(block => block.trimEnd().split('\n'));
}

describe('with answers given at once', () => {
    test('tells each step: what to beware of, what is done, what is asked, and who is still possible', async () => {
        const [start] = await walk(['no-airflow', '--answer', 'normal']);
        expect(start).toEqual([
            'Equipment dust-extractor: Workshop dust extractor',
            "Note: The maker's instructions and your local codes come before this document.",
            'Note: Only people with the licence that your country asks for work on the electrical parts.',
            'See: Service handbook DX, section 4',
            'Picture: The way of the air: hood, blast gate, hose, fan inlet, fan, filter, outlet duct (pictures/air-path.svg)',
            'Tree no-airflow: No airflow at the hood',
            'Warning about Fine wood dust in the air that you breathe: Fine wood dust can harm your lungs. Wear a mask for fine dust.',
            "Note: The maker's instructions and your local codes come before this tree.",
            'Step start: Start the fan',
            'Warning about Turning impeller: The fan starts at once. Keep hands and clothing away from the inlet and the outlet.',
            'Do: Turn the fan switch S1 to RUN.',
            'Test motor-runs: Does the fan motor run?',
            'Answers:',
            '1. normal: yes; leads to step airflow, Measure the airflow',
            '2. absent: no; leads to step trip, Look for a trip',
            '3. cannot be read; leads to step leave-off, Leave the fan off',
            'Still possible: 41',
            expect.stringMatching(/^\d+ % blast-gate\.left-shut, Blast gate at the hood: Left shut$/),
            ...Array.from({ length: 4 }, () => expect.stringMatching(/^[\d.]+ % [\w.-]+, /) as string),
            'and 36 more',
        ]);
    });

    test('comes to a repair', async () => {
        const places = await walk(['no-airflow', '--answer', 'normal,low', '--answer', 'normal', '--answer=torn']);
        expect(places.at(-1)).toEqual([
            'Answer: torn',
            'Conclusion torn-hose: The hose is torn',
            'Named: hose.torn, Hose from the fan to the hood: Torn; still possible',
            'Warning about Mains voltage: Mains voltage can kill. Do every element of this lockout, in this order.',
            'Warning about Charge in the motor capacitor (only for single-phase): The motor capacitor stays charged after the isolator is OFF. Touch no terminal of the motor before you have measured it.',
            'Replace: Fit a new hose.',
            'Takes 15 min',
            'Costs 30 EUR',
            'Under the gate: Lock out the extractor',
            'If the complaint is still there: step start, Start the fan',
            'Still possible: 1',
            '100 % hose.torn, Hose from the fan to the hood: Torn',
        ]);
    });

    test('asks for the build where the way on depends on it, and takes a number for an answer', async () => {
        const answers = ['normal', 'low', 'low', 'normal', '2', 'backward'];
        const places = await walk(['no-airflow', '--answer', answers.join()]);
        expect(places[4]?.slice(-9)).toEqual([
            'outlet-duct.blocked, Outlet duct: Partly blocked; the answer would be `high`',
            'Build: The way on depends on the build of the unit.',
            'Option supply: Electrical supply',
            'Answers:',
            '1. single-phase: 230 V, one phase; leads to conclusion caked-impeller, The impeller is caked with dust',
            '2. three-phase: 400 V, three phases; leads to step direction, Look at the direction of rotation',
            'Still possible: 2',
            expect.stringContaining('impeller.caked'),
            expect.stringContaining('motor-cable.phases-swapped'),
        ]);
        const end = places.at(-1) ?? [];
        // The step leads on without a question, so its end stands behind what is done.
        expect(end.indexOf('Step cool-motor: Lock out for work at the motor')).toBeGreaterThan(0);
        expect(
            end.indexOf('Caution about Hot motor: The motor is hot. Do not touch it before it has cooled.'),
        ).toBeLessThan(end.indexOf('Gate lockout: Lock out the extractor'));
        expect(end).toContain('Wait: 30 min, until this is safe: Hot motor. Let the motor cool.');
        expect(end).toContain('Isolate: Shut the compressed-air cock.');
        expect(end).toContain('Conclusion swapped-phases: The fan turns backward');
    });

    test('says what holds in some builds only, unless the build is given', async () => {
        const answers = ['--answer', 'normal,tripped'];
        const open = (await walk(['trips-at-start', ...answers])).at(-1);
        expect(open).toContain('Isolate (only for cartridge): Shut the compressed-air cock.');
        const given = (await walk(['trips-at-start', '--build', 'bag', ...answers])).at(-1);
        expect(given?.filter(line => /^[IL].*compressed-air/.test(line))).toEqual([]);
        const other = (await walk(['trips-at-start', '--build', 'cartridge, three-phase', ...answers])).at(-1);
        expect(other).toContain('Isolate: Shut the compressed-air cock.');
    });

    test('goes into a procedure and on in another tree', async () => {
        const checked = (await walk(['no-airflow', '--answer', 'absent,normal'])).at(-1);
        expect(checked).toContain('Follow supply-check: Check the mains supply');
        expect(checked).toContain('Step reading of supply-check: Measure the supply voltage');
        expect(checked).toContain(
            '1. normal: 230 V ± 10 % (only for single-phase); or 400 V ± 10 % (only for three-phase); leads to step control, Measure the control voltage',
        );
        const subject = (await walk(['no-airflow', '--answer', 'absent,normal,normal,wrong'])).at(-1);
        expect(subject).toContain('Follow fuse-check with f1: Check a fuse');
        expect(subject).toContain('Note: Do this check while the extractor is locked out.');
        expect(subject).toContain(
            'Test f1.continuity: Fuse F1, before the transformer: Resistance of the fuse, out of its holder',
        );
        const handed = (await walk(['no-airflow', '--answer', 'absent,tripped'])).at(-1);
        expect(handed).toContain('Continue with trips-at-start: Trips when it is started');
        expect(handed).toContain('Step fan-off: Switch the fan off');
    });

    test('rules nobody out where a test cannot be read, and hands over', async () => {
        const end = (await walk(['no-airflow', '--answer', 'normal,cannot be read'])).at(-1);
        expect(end?.slice(0, 5)).toEqual([
            'Answer: cannot be read',
            'Step leave-off: Leave the fan off',
            'Do: Turn the fan switch S1 to OFF.',
            "Referral ask-service: Call the maker's service desk",
            'Reason: a reading does not fit, or cannot be taken',
        ]);
        expect(end).toContain('Still possible: 12');
        expect(end).toContain('May stay: the gate Lock out the extractor closed');
    });

    test('follows an answer that nobody gives, and says that nobody is left', async () => {
        const places = await walk(['no-airflow', '--answer', 'normal,low,normal,normal']);
        expect(places[3]).toContain(
            '1. normal: yes; leads to step leave-off, Leave the fan off; nobody who is still possible gives this answer',
        );
        expect(places.at(-1)?.at(-1)).toBe(
            'Still possible: nobody. No unit that comes with the complaint gives these answers.',
        );
    });

    test('names those whom the build rules out from the start', async () => {
        const [start] = await walk(['trips-at-start', '--build', 'three-phase', '--answer', 'normal']);
        expect(start?.slice(0, 2)).toEqual([
            'Ruled out: 1',
            'capacitor.open, Motor capacitor C1: Open circuit; not in this build',
        ]);
    });

    test.each([
        [
            ['--answer', 'normal,lwo'],
            'Answer 2: `lwo` is no answer to the test `hood-airflow`.',
            'There is an answer with a similar name: `low`.',
        ],
        [
            ['--answer', 'perhaps'],
            '`perhaps` is no answer to the test `motor-runs`.',
            'The answers are `normal`, `absent` and `cannot be read`.',
        ],
        [['--answer', '4'], '`4` is no answer to the test `motor-runs`.', 'The answers are'],
        [
            ['--answer', 'normal,low,low,normal,bag'],
            'Answer 5: `bag` is no answer to the option `supply`.',
            'The answers are `single-phase` and `three-phase`.',
        ],
        [['--answer', 'normal,low,normal,torn,normal'], 'Answer 5: `normal` answers nothing: the way has ended.', ''],
        [['--build', 'bagg'], 'There is no choice called `bagg`.', 'There is a choice with a similar name: `bag`.'],
        [['--build', 'bag three-phase'], 'No unit is made with `bag` and `three-phase`.', ''],
        [['--format', 'json', '--answer', '\u001B[31m'], '`\\u{1B}[31m` is no answer', ''],
    ])('%j is not understood', async (words, message, advice) => {
        const { status, messages } = await run(['walk', 'no-airflow', ...words], { folder: extractor });
        expect(messages).toContain(`halfsplit: ${message}`);
        expect(messages).toContain(advice);
        expect(status).toBe(2);
    });
});

describe('as JSON', () => {
    test('is one object with every position, and nulls for what is not there', async () => {
        const { output, status } = await run(
            ['walk', 'no-airflow', '--build', 'three-phase', '--answer', 'normal,absent', '--format', 'json'],
            { folder: extractor },
        );
        expect(status).toBe(0);
        const walked = JSON.parse(output) as Record<string, unknown> & { positions: Record<string, unknown>[] };
        expect(Object.keys(walked)).toEqual(['formatVersion', 'tool', 'safety', 'tree', 'build', 'positions']);
        expect(walked).toMatchObject({
            formatVersion: 1,
            tree: { name: 'no-airflow', title: 'No airflow at the hood', file: 'no-airflow.fault' },
            build: ['three-phase'],
        });
        expect(walked.positions.map(({ answer }) => answer)).toEqual([null, 'normal', 'absent']);
        expect(walked.positions.at(-1)).toMatchObject({
            isAgain: false,
            visits: [{ begins: [], step: { name: 'suction' }, of: 'no-airflow' }],
            next: { sort: 'test', name: 'inlet-suction', confirms: false },
        });
        const { suspects, ruledOut } = walked.positions.at(-1) as {
            suspects: { name: string; chance: number }[];
            ruledOut: { name: string; wouldBe: string[] }[];
        };
        expect(suspects.map(({ name }) => name).sort()).toEqual([
            'blast-gate.left-shut',
            'hose.blocked',
            'impeller.loose',
        ]);
        expect(suspects.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
        expect(ruledOut.find(({ name }) => name === 'hose.torn')).toMatchObject({ wouldBe: ['low'] });
    });

    test('asks nothing', async () => {
        const { output } = await run(['walk', 'no-airflow', '--format', 'json'], {
            folder: extractor,
            input: 'normal\n',
        });
        expect((JSON.parse(output) as { positions: unknown[] }).positions).toHaveLength(1);
    });
});

describe('at each step', () => {
    const oven = `equipment oven "Oven" {
  hazard mains "Mains voltage" { electrical 230 V AC }
  hazard heat "Hot plate" { thermal 200 °C  cools in 20 min }
  zone box "Terminal box" { exposes mains while lid open  category III 300 V }
  zone plate "Plate" { exposes heat }
  condition lid "Lid" { shut open }
  supply spur "Spur" carries mains { fault dead }
  kind coil-kind "Coil" { caution "Coils are sharp." }
  part coil is coil-kind "Coil" in plate { fault open  replace "Fit a coil" under lockout }
  flow heat-way: spur -> coil -> [hot]
  test hot "Is it hot?" { observe by eye normal yes absent no shows stopped }
  test volts "Voltage" in box { measure voltage AC  needs lid open  normal 230 V ± 10 %  absent otherwise }
  gate lockout "Lock out" { controls mains, heat  wear "Gloves"  isolate "Off"  prove "Try it."  restore "On" }
  gate beside "Live measuring" { permits measuring mains  instrument category III 300 V  wear "Face shield" }
}
tree cold "The oven stays cold" of oven {
  complaint hot absent
  cannot be read -> ask
  step measure { gate beside  do "Open the lid." sets lid open  test volts { normal -> cool  absent -> ask } }
  step cool { wait 20 min until heat safe "Let the plate cool."  do "Touch the coil." at coil  test hot { normal -> ask  absent -> bad-coil } }
  conclude bad-coil { coil.open }
  refer ask { spur.dead }
}
`;

    test('the hazards that are met and what controls them are told, though the writer said nothing of them', async () => {
        const folder = makeFolder({ 'oven.fault': oven });
        const { output, status } = await run(['walk', 'cold', '--answer', 'normal,absent'], { folder });
        expect(status).toBe(0);
        const places = output.split('\n\n').map(block => block.trimEnd().split('\n'));
        const from = (place: number, line: string) => places[place]?.slice(places[place]?.indexOf(line)) ?? [];
        expect(from(0, 'Step measure').slice(0, 9)).toEqual([
            'Step measure',
            'Hazard Mains voltage at Terminal box, only while Lid is open: not under control, measuring is permitted by the gate Live measuring',
            'Gate beside: Live measuring',
            'Permits: measuring is permitted until the end of the step; not under control: Mains voltage',
            'Wear: Face shield',
            'Instruments: category III 300 V',
            'Do: Open the lid.',
            'Test volts: Voltage',
            'Instruments: category III 300 V',
        ]);
        expect(from(1, 'Step cool').slice(0, 5)).toEqual([
            'Step cool',
            'Caution: Coils are sharp.',
            'Hazard Hot plate at Plate: made safe by waiting',
            'Wait: 20 min, until this is safe: Hot plate. Let the plate cool.',
            'Do: Touch the coil.',
        ]);
        expect(from(2, 'Conclusion bad-coil')).toContain(
            'Hazard Hot plate at Plate: controlled by the gate Lock out and made safe by waiting',
        );
    });

    test('a hazard that nothing controls is told as that, where the walk is gone through in spite of it', async () => {
        const folder = makeFolder({
            'oven.fault': oven.replace('wait 20 min until heat safe "Let the plate cool."', ''),
        });
        const { output } = await run(['walk', 'cold', '--answer', 'normal'], { folder });
        expect(output).toContain('Hazard Hot plate at Plate: nothing on this way controls it');
    });

    test('a program is told the same', async () => {
        const folder = makeFolder({ 'oven.fault': oven });
        const { output } = await run(['walk', 'cold', '--format', 'json'], { folder });
        const walked = JSON.parse(output) as {
            readonly safety: string;
            readonly positions: readonly { readonly visits: readonly { readonly hazards: unknown }[] }[];
        };
        expect(walked.safety).toBe(safetyNotice());
        expect(walked.positions[0]?.visits[0]?.hazards).toEqual([
            {
                name: 'mains',
                title: 'Mains voltage',
                zone: { name: 'box', title: 'Terminal box' },
                when: 'Lid is open',
                controls: [
                    {
                        sort: 'permit',
                        gate: { name: 'beside', title: 'Live measuring' },
                        activity: 'measuring',
                        only: null,
                    },
                ],
                only: null,
            },
        ]);
    });
});

describe('with answers typed', () => {
    test('takes names, numbers and the words of the author, until the input ends', async () => {
        const replies = await type(['no-airflow'], 'normal', '3', 'ABSENT', 'no');
        expect(replies.map(([first]) => first)).toEqual([
            safetyNotice(),
            'Answer: normal',
            'Answer: low',
            'Answer: absent',
            '`no` answers nothing: the way has ended.',
        ]);
        const worded = await type(['no-airflow'], 'NO');
        expect(worded.at(-1)?.[0]).toBe('Answer: absent');
        expect(worded.at(-1)?.at(-1)).toBe(
            'Type a number or name from the answers, `back`, `suspects`, `why NAME` or `quit`.',
        );
    });

    test('goes back as far as the start', async () => {
        const replies = await type(['no-airflow'], 'normal', 'low', 'back', 'back', 'back', 'absent');
        expect(replies[3]?.[0]).toBe('Back before the answer `low`');
        expect(replies[3]?.slice(1)).toEqual(replies[1]?.slice(1));
        expect(replies[4]?.[0]).toBe('Back before the answer `normal`');
        expect(replies[5]?.[0]).toBe('This is the start: there is no answer to take back.');
        expect(replies[6]).toContain('Step trip: Look for a trip');
    });

    test('tells all suspects, and of each why it is out or what it would answer', async () => {
        const replies = await type(
            ['no-airflow', '--build', 'bag'],
            'normal',
            'suspects',
            'why k1.coil-open',
            'WHY healthy',
            'why pulse-valve.stuck-shut',
            'why filter-bag.torn',
            'why k1.coil-opn',
            'why',
        );
        const suspects = replies[2]?.filter(line => / % /.test(line)) ?? [];
        expect(replies[2]?.[0]).toBe(`Still possible: ${suspects.length}`);
        expect(suspects.length).toBeGreaterThan(5);
        expect(replies.slice(3).map(lines => lines.slice(0, -1))).toEqual([
            [
                'k1.coil-open, Fan contactor K1: Coil open circuit',
                'Ruled out by the answer `normal`',
                'Step start: Start the fan',
                'Test motor-runs: Does the fan motor run?',
                'With it the answer would be `absent`',
            ],
            [
                'healthy, Nothing is wrong with the unit',
                expect.stringMatching(/^Still possible: [\d.]+ %$/),
                'The answer here would be `normal`',
            ],
            [
                'pulse-valve.stuck-shut, Cleaning valve Y1: Stuck shut',
                'Ruled out by the build: no unit of this build comes with it.',
            ],
            ['filter-bag.torn, Filter bag: Torn', 'Never in this tree: no unit with it shows the complaint.'],
            ['There is no fault called `k1.coil-opn`. There is a similar name: `k1.coil-open` or `k2.coil-open`.'],
            ['`why` needs the name of a fault, or `healthy`: `why NAME`.'],
        ]);
    });

    test('asks again after what it does not understand or an empty line, and ends with `quit`', async () => {
        const replies = await type(['no-airflow'], 'perhaps', 'suspect', '', 'quit', 'normal');
        expect(replies.slice(1).map(([first, second]) => `${first} ${second}`)).toEqual([
            '`perhaps` is no answer to the test `motor-runs`. The answers are `normal`, `absent` and `cannot be read`.',
            '`suspect` is no answer to the test `motor-runs`. There is a command with a similar name: `suspects`.',
            expect.stringContaining('Equipment dust-extractor'),
        ]);
    });

    test('says where the same step comes round again with nobody ruled out', async () => {
        const round = silent.replace('absent -> flat-battery }', 'absent -> press }').replace(/ {2}conclude.*\n/, '');
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': round });
        const { output } = await run(['walk', 'silent'], { folder, input: 'absent\nabsent\n' });
        expect(output.match(/You were at this step before, and nobody has been ruled out since\./g)).toHaveLength(1);
    });
});

test('chances are told in percent, small ones with a digit behind the point', () => {
    expect([1, 0.123, 0.0999, 0.0104, 0.002, 0.0004, 0].map(percent)).toEqual([
        '100 %',
        '12 %',
        '10 %',
        '1 %',
        '0.2 %',
        'under 0.1 %',
        '0 %',
    ]);
});

test('lines are divided wherever the pieces end, and one that is too long comes in pieces', async () => {
    async function* pieces(...texts: readonly string[]): AsyncGenerator<Uint8Array> {
        const bytes = new TextEncoder().encode(texts.join(''));
        for (let start = 0; start < bytes.length; start += 3) yield bytes.slice(start, start + 3);
    }
    const read = async (text: string) => {
        const lines: string[] = [];
        for await (const line of linesOf(pieces(text))) lines.push(line);
        return lines;
    };
    expect(await read('one\r\ntwo\n\nΩ € µ\nlast')).toEqual(['one', 'two', '', 'Ω € µ', 'last']);
    expect(await read('')).toEqual([]);
    expect((await read('x'.repeat(70_000))).map(({ length }) => length)).toEqual([65_536, 4_464]);
});
