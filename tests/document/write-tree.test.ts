/** What a tree becomes in the document: kinds, repairs, procedures, remarks, and what stands in the way. */
import { describe, expect, test } from 'vitest';
import { prettyJson } from '../../language/src/document/canonical.js';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import { exportFrom, filesOf, readAnyFiles, schemaErrors, tool, writeFrom } from './support.js';

const golden = 'tests/document/golden/bench-lamp';

test('a small world comes out as it did before', async () => {
    const document = await exportFrom(filesOf(golden), 'dark');
    expect(schemaErrors(document)).toEqual([]);
    await expect(prettyJson(document)).toMatchFileSnapshot('golden/bench-lamp/dark.json');
});

test('the order of the files makes no difference', async () => {
    const files = filesOf(golden);
    const reversed = Object.fromEntries(Object.entries(files).reverse());
    expect(Object.keys(reversed)).not.toEqual(Object.keys(files));
    expect(prettyJson(await exportFrom(reversed, 'dark'))).toBe(prettyJson(await exportFrom(files, 'dark')));
});

test('texts stand under the locale of their author', async () => {
    const document = await exportFrom(lamp(''), 'dark', 'de');
    expect(document.locales).toEqual(['de']);
    expect(document.tree.title).toEqual({ de: 'Dunkel' });
});

describe('a part of a kind', () => {
    const files = (part: string): Record<string, string> =>
        lamp(`
            option head { small large }
            kind bulb-kind for large {
                replace "Fit a bulb" takes 2 min
                fault burnt rate 1 per 1e6 h { causes loose }
                fault loose rate 2 per 1e6 h for small
                test look { observe by eye  checks burnt as black  normal yes  black no }
            }
            part left is bulb-kind ${part}
            part right is bulb-kind
        `);

    test('has the faults and tests of its kind under its own name', async () => {
        const { equipment } = await exportFrom(files(''), 'dark');
        expect(equipment.parts.map(part => part.faults.map(fault => fault.id))).toEqual([
            ['left.burnt', 'left.loose'],
            ['right.burnt', 'right.loose'],
        ]);
        expect(equipment.parts[1]?.faults[0]?.causes).toEqual([{ faults: [{ fault: 'right.loose' }] }]);
        expect(equipment.tests.map(({ id, owner }) => ({ id, owner }))).toEqual([
            { id: 'left.look', owner: 'left' },
            { id: 'right.look', owner: 'right' },
        ]);
        expect(equipment.tests[1]?.checks).toEqual([{ fault: 'right.burnt', outcome: 'black' }]);
    });

    test('has them only for the builds of the kind', async () => {
        const { equipment } = await exportFrom(files(''), 'dark');
        const [burnt, loose] = equipment.parts[0]?.faults ?? [];
        expect(burnt?.guard).toEqual({ choice: 'head.large' });
        expect(loose?.guard).toEqual({ all: [{ choice: 'head.large' }, { choice: 'head.small' }] });
        expect(equipment.tests[0]?.guard).toEqual({ choice: 'head.large' });
    });

    test('has its tests only where the part itself is there', async () => {
        const { equipment } = await exportFrom(files('for small'), 'dark');
        expect(equipment.tests.map(({ guard }) => guard)).toEqual([
            { all: [{ choice: 'head.small' }, { choice: 'head.large' }] },
            { choice: 'head.large' },
        ]);
    });

    test('keeps a fault and a repair of its own in place of those of the kind', async () => {
        const own = '{ replace "Fit two bulbs" takes 4 min  fault burnt "Burnt black" rate 5 per 1e6 h }';
        const { equipment } = await exportFrom(files(own), 'dark');
        const [left, right] = equipment.parts;
        expect(left?.faults.map(({ id, title }) => ({ id, title }))).toEqual([
            { id: 'left.burnt', title: { en: 'Burnt black' } },
            { id: 'left.loose', title: undefined },
        ]);
        expect(left?.repairs?.map(repair => repair.text)).toEqual([{ en: 'Fit two bulbs' }]);
        expect(right?.repairs?.map(repair => repair.text)).toEqual([{ en: 'Fit a bulb' }]);
    });
});

test('a test without a zone is in that of the part that it looks at, else of the part that has it', async () => {
    const document = await exportFrom(
        lamp(`
            zone base  zone top
            kind bulb-kind { test look { observe by eye  normal yes } test feel in top { observe by hand  normal yes } }
            part left is bulb-kind in base
            test glow at left { observe by eye  normal yes }
            test hum { observe by ear  normal yes }
        `),
        'dark',
    );
    expect(document.equipment.tests.map(({ id, zones }) => [id, zones?.map(({ zone }) => zone)])).toEqual([
        ['glow', ['base']],
        ['hum', undefined],
        ['left.look', ['base']],
        ['left.feel', ['top']],
    ]);
});

describe('the repairs of a conclusion', () => {
    const parts = `
        option head { small large }
        kind bulb-kind { replace "Fit a bulb" takes 2 min for small  fault burnt  fault loose { repair "Push it in" } }
        part left is bulb-kind
        part right is bulb-kind
    `;
    const repairsOf = async (conclusion: string) => {
        const document = await exportFrom(lamp(parts, `conclude bad ${conclusion}`), 'dark');
        return document.tree.conclusions[0]?.repairs?.map(({ faults, text, guard }) => ({
            faults,
            text: text['en'],
            guard,
        }));
    };

    test('are those of each fault, else of its part', async () => {
        expect(await repairsOf('{ left.burnt, left.loose }')).toEqual([
            { faults: ['left.burnt'], text: 'Fit a bulb', guard: { choice: 'head.small' } },
            { faults: ['left.loose'], text: 'Push it in', guard: undefined },
        ]);
    });

    test('are written for each part that needs them', async () => {
        expect(await repairsOf('{ left.burnt, right.burnt for large }')).toEqual([
            { faults: ['left.burnt'], text: 'Fit a bulb', guard: { choice: 'head.small' } },
            {
                faults: ['right.burnt'],
                text: 'Fit a bulb',
                guard: { all: [{ choice: 'head.large' }, { choice: 'head.small' }] },
            },
        ]);
    });

    test('are its own where it has some', async () => {
        expect(await repairsOf('{ left  repair "Clean the holder" }')).toEqual([
            { faults: ['left.burnt', 'left.loose'], text: 'Clean the holder', guard: undefined },
        ]);
    });
});

test('a referral hands faults over and repairs nothing', async () => {
    const document = await exportFrom(
        lamp('part bulb { replace "Fit a bulb"  fault burnt }', 'refer desk because "it is theirs" { bulb }'),
        'dark',
    );
    expect(document.tree.referrals).toEqual([
        { id: 'desk', reason: { en: 'it is theirs' }, faults: [{ fault: 'bulb.burnt' }] },
    ]);
});

test('a test that identifies has the choices as its outcomes', async () => {
    const document = await exportFrom(
        lamp(
            'option head { small "One"  large } test which { identify head by eye }',
            'step ask { test which { small -> a  large -> b } } refer a refer b',
        ),
        'dark',
    );
    expect(document.equipment.tests[0]?.outcomes).toEqual([
        { id: 'small', choice: 'head.small', cases: [{ answer: { en: 'One' } }] },
        { id: 'large', choice: 'head.large', cases: [{}] },
    ]);
    expect(document.tree.steps[0]?.statements[0]).toMatchObject({
        branches: [{ outcomes: ['small'] }, { outcomes: ['large'] }],
    });
});

test('an outcome that stands several times is one outcome with several cases', async () => {
    const document = await exportFrom(
        lamp(
            'option head { small large } condition lid { shut open } test glow { measure voltage DC normal 3 V for small  absent < 1 V  normal 0 V when lid open }',
        ),
        'dark',
    );
    const [normal, absent] = document.equipment.tests[0]?.outcomes ?? [];
    expect(normal).toMatchObject({
        id: 'normal',
        healthy: true,
        cases: [{ guard: { choice: 'head.small' } }, { when: { condition: 'lid', value: 'open' } }],
    });
    expect(absent).toMatchObject({ id: 'absent', cases: [{ bands: [{ display: '< 1 V' }] }] });
});

test('guards and states are expression trees', async () => {
    const document = await exportFrom(
        lamp(`
            option head { small large }
            option glass { clear frosted }
            hazard mains { electrical 230 V AC }
            condition lid { shut open }
            part bulb
            flow power: mains -> bulb
            test glow for small or not clear and large {
                observe by eye  normal yes  needs lid open or not (mains isolated and power flowing)  needs isolated
            }
        `),
        'dark',
    );
    const [glow] = document.equipment.tests;
    expect(glow?.guard).toEqual({
        any: [{ choice: 'head.small' }, { all: [{ not: { choice: 'glass.clear' } }, { choice: 'head.large' }] }],
    });
    expect(glow?.needs).toEqual([
        {
            state: {
                any: [
                    { condition: 'lid', value: 'open' },
                    { not: { all: [{ isolated: 'mains' }, { flowing: 'power' }] } },
                ],
            },
        },
        { state: { allIsolated: true } },
    ]);
});

test('only the procedures that are followed are written, with those that they follow', async () => {
    const document = await exportFrom(
        {
            'lamp.fault': `
                equipment lamp { part bulb { fault burnt  test look { observe by eye  normal yes  black no } } }
                procedure unused of lamp { step s { go r } result r }
                procedure outer of lamp about part { step s { follow inner with it { good -> r } } result r }
                procedure inner of lamp about part { step s { do "Push" at it clears it  go good } result good }
                tree dark of lamp { step s { follow outer with bulb { r -> a } } refer a }
            `,
        },
        'dark',
    );
    expect(document.procedures.map(({ id }) => id)).toEqual(['inner', 'outer']);
    expect(document.tree.steps[0]?.statements).toEqual([
        { type: 'follow', procedure: 'outer', withPart: 'bulb', branches: [{ results: ['r'], to: 'a' }] },
    ]);
    expect(document.procedures[0]?.steps[0]?.statements[0]).toEqual({
        type: 'do',
        text: { en: 'Push' },
        clearsPart: ['it'],
        at: 'it',
    });
    expect(document.procedures[1]?.steps[0]?.statements[0]).toMatchObject({
        type: 'follow',
        procedure: 'inner',
        withPart: 'it',
    });
});

test('a procedure about a test keeps `it` as what the call names', async () => {
    const document = await exportFrom(
        {
            'lamp.fault': `
                equipment lamp { test glow { observe by eye  normal yes  absent no } }
                procedure probe of lamp about test { step s { test it { normal -> good  absent -> bad } } result good result bad }
                tree dark of lamp { step s { follow probe with glow { good -> a  bad -> a } } refer a }
            `,
        },
        'dark',
    );
    expect(document.tree.steps[0]?.statements[0]).toMatchObject({ withTest: 'glow' });
    expect(document.procedures[0]?.steps[0]?.statements[0]).toEqual({
        type: 'test',
        test: 'it',
        branches: [
            { outcomes: ['normal'], to: 'good' },
            { outcomes: ['absent'], to: 'bad' },
        ],
    });
});

test('two instruments of one name are told apart, and the own one keeps its name', async () => {
    const kindFile = (title: string) => `
        kind ${title}-kind { test look { measure voltage DC with meter  normal 1 V } }
        instrument meter "${title}"
    `;
    const files = (names: readonly string[]): Record<string, string> => ({
        'lamp.fault': `
            uses "a.fault"
            equipment lamp {
                instrument meter "own"
                part bulb is a-kind
                test glow { measure voltage DC with meter  normal 1 V }
            }
            tree dark of lamp { }
        `,
        ...Object.fromEntries(names.map(name => [`${name}.fault`, kindFile(name)])),
    });
    const { equipment } = await exportFrom(files(['a']), 'dark');
    expect(equipment.instruments).toEqual([
        { id: 'meter', title: { en: 'own' } },
        { id: 'meter-2', title: { en: 'a' } },
    ]);
    expect(equipment.tests.map(({ id, methods }) => [id, methods[0]])).toEqual([
        ['glow', { type: 'measure', quantity: 'voltage', modes: ['DC'], instrument: 'meter' }],
        ['bulb.look', { type: 'measure', quantity: 'voltage', modes: ['DC'], instrument: 'meter-2' }],
    ]);
});

test('a picture has its path from the workspace, and stands in the list of files once', async () => {
    const picture = 'picture "../pictures/bulb.svg" "The bulb"';
    const document = await exportFrom(
        {
            'lamps/lamp.fault': `equipment lamp { ${picture} } tree dark of lamp { ${picture} }`,
            'pictures/bulb.svg': '<svg/>',
        },
        'dark',
    );
    expect(document.equipment.remarks).toEqual([
        { type: 'picture', path: 'pictures/bulb.svg', alternative: { en: 'The bulb' } },
    ]);
    expect(document.pictures).toEqual([
        { path: 'pictures/bulb.svg', sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as unknown },
    ]);
});

test('what the author let stand is written with its reason and place', async () => {
    const document = await exportFrom(
        {
            'b.fault':
                'equipment lamp { part bulb { accept x-one because "one" fault burnt } test glow { observe by eye normal yes accept x-two because "two" } }',
            'a.fault': `
                uses "b.fault"
                accept x-three because "three"
                tree dark of lamp { accept x-four because "four"  step s { accept x-five because "five" } refer desk { accept x-six because "six" } }
                tree other of lamp { accept x-seven because "seven" }
            `,
        },
        'dark',
    );
    expect(document.verification.accepted.map(({ code, reason, place }) => [code, reason['en'], place])).toEqual([
        ['x-three', 'three', 'file `a.fault`'],
        ['x-one', 'one', 'part `bulb`'],
        ['x-two', 'two', 'test `glow`'],
        ['x-four', 'four', 'tree `dark`'],
        ['x-five', 'five', 'step `s` of tree `dark`'],
        ['x-six', 'six', 'referral `desk` of tree `dark`'],
    ]);
    expect(document.verification.sources.map(({ path }) => path)).toEqual(['a.fault', 'b.fault']);
});

test('texts are data and stay as they are, except for what JSON cannot hold', async () => {
    const title = '<script>alert(1)</script> \\u0000 & half \uD800 pair \u{1f4a1}';
    const document = await exportFrom(lamp(`part bulb "${title}"`), 'dark');
    expect(document.equipment.parts[0]?.title?.['en']).toContain('<script>alert(1)</script>');
    expect(document.equipment.parts[0]?.title?.['en']).toContain('half \uFFFD pair \u{1f4a1}');
});

test('a half-written file gives a valid document or says what is wrong, and never fails', () => {
    const files = filesOf(golden);
    const text = files['lamp.fault'] ?? '';
    let written = 0;
    for (let length = 0; length <= text.length; length += 23) {
        const { model } = readAnyFiles({ ...files, 'lamp.fault': text.slice(0, length) });
        for (const tree of [...model.files.values()].flatMap(file => file.trees)) {
            const digests = new Map([...model.files.keys()].map(file => [file, '0'.repeat(64)]));
            const { document, problems } = writeTreeDocument(model, tree, { tool, digests });
            if (document) expect(schemaErrors(document)).toEqual([]);
            else expect(problems.length).toBeGreaterThan(0);
            written += 1;
        }
    }
    expect(written).toBeGreaterThan(20);
});

test('a file whose digest is not given, or a locale that is none, is a problem', async () => {
    const { model } = readAnyFiles(lamp(''));
    const [tree] = [...model.files.values()].flatMap(file => file.trees);
    const { problems } = tree ? writeTreeDocument(model, tree, { tool, digests: new Map() }) : { problems: [] };
    expect(problems.map(({ message }) => message)).toEqual(['The digest of `lamp.fault` was not given.']);
    const written = await writeFrom(lamp(''), 'dark', '__proto__');
    expect(written.problems[0]?.message).toBe('`__proto__` is no locale; a locale is a language such as `en`.');
});

describe('a tree that cannot be written says why and where', () => {
    test.each([
        [
            'of an unknown equipment',
            { 'a.fault': 'tree dark of lamp { }' },
            '`dark` does not say of which equipment it is.',
        ],
        ['with an unknown step', lamp('', 'step s { go nowhere }'), 'There is nothing called `nowhere`.'],
        [
            'with a picture outside',
            lamp('picture "../../secret.svg"'),
            'The picture `../../secret.svg` is not inside the workspace.',
        ],
        ['with an unreasoned acceptance', lamp('', 'accept x-one'), '`accept x-one` has no reason.'],
    ])('%s', async (_, files, message) => {
        const { document, problems } = await writeFrom(files, 'dark');
        expect(document).toBeUndefined();
        expect(problems.map(problem => problem.message)).toEqual([message]);
        expect(problems.every(({ file, start, end }) => file in files && start <= end)).toBe(true);
    });
});

/** A lamp with these members, and a tree `dark` of it with those. */
function lamp(members: string, treeMembers = ''): Record<string, string> {
    return { 'lamp.fault': `equipment lamp { ${members} }\ntree dark "Dunkel" of lamp { ${treeMembers} }\n` };
}
