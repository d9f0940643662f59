/** Drawings of trees: text in, SVG out; every step, answer and end is in it, and nothing an author wrote breaks it. */
import { describe, expect, test } from 'vitest';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { wrap } from '../../language/src/core/text/width.js';
import { drawTree } from '../../language/src/drawing/draw-tree.js';
import { escapeXml } from '../../language/src/drawing/svg-text.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';
import { filesOf } from '../document/support.js';

/** Draws the first tree of the texts. */
function draw(files: Readonly<Record<string, string>>): string {
    const sources = Object.entries(files).map(([file, text]) => ({ file, text }));
    const { model } = readWorkspace(sources, { presence: () => 'missing' });
    const tree = [...model.files.values()].flatMap(file => file.trees)[0];
    if (!tree) throw new Error('There is no tree in the texts.');
    const svg = drawTree(tree, model);
    expectWellFormed(svg);
    return svg;
}

/** The texts of the drawing, in the order of the file. */
function textsOf(svg: string): readonly string[] {
    return [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);
}

/** Every tag is closed in its turn, and every `&` begins one of the five entities of XML 1.0 (section 4.6). */
function expectWellFormed(svg: string): void {
    const open: string[] = [];
    const misplaced: string[] = [];
    for (const [, close, name = '', single] of svg.matchAll(/<(\/?)([a-z]+)(?: [a-zA-Z:-]+="[^"<]*")*(\/?)>/g)) {
        if (close === '/' && open.pop() !== name) misplaced.push(name);
        if (close !== '/' && single !== '/') open.push(name);
    }
    expect({ open, misplaced }).toEqual({ open: [], misplaced: [] });
    const rest = svg.replace(/<\/?[a-z]+(?: [a-zA-Z:-]+="[^"<]*")*\/?>/g, '');
    expect(rest).not.toMatch(/[<>]/);
    expect(svg).not.toMatch(/&(?!amp;|lt;|gt;|quot;|#39;)/);

    expect(svg).not.toMatch(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/);
}

const notice = wrap(safetyNotice(), 100).map(escapeXml);

const lamp = `
equipment lamp "Reading lamp" {
  part cord "Cord" { fault broken "Broken" }
  part bulb "Bulb" { fault burnt "Burnt through" }
  test light "Does it shine?" { observe by eye  normal yes  dim "a little"  dark no }
  test plug "Is it plugged in?" { observe by eye  normal yes  out no }
  gate lockout "Lock out"
}
`;
const tree = (body: string) => ({ 'lamp.fault': `${lamp}\ntree dark "The lamp is dark" of lamp {\n${body}\n}\n` });

describe('a tree', () => {
    test('is drawn with its steps, what is done in them, its answers and its ends', () => {
        const svg = draw(
            tree(`
            cannot be read -> ask
            step look "Look at the lamp" {
              warning "It is hot."
              do "Switch it on."
              gate lockout
              wait 5 min "Let it cool."
              test light { normal -> fine  dim, dark -> next }
            }
            step next { test plug { normal -> bad  out -> look } }
            conclude bad "The bulb is bad" { bulb.burnt, cord  still wrong -> ask }
            refer fine "No fault found" because "it shines"
            refer ask "Ask the workshop" because "it cannot be read"
            `),
        );
        expect(textsOf(svg)).toEqual([
            'The lamp is dark',
            'Reading lamp',
            'If a test cannot be read, go to referral, Ask the workshop.',
            ...notice,
            ...['Step 1', 'Look at the lamp', 'WARNING: It is hot.', 'Switch it on.', 'Gate: Lock out'],
            ...['Wait 5 min: Let it cool.', 'Test: Does it shine?', 'normal (yes)', 'dim (a little) or', 'dark (no)'],
            ...['Referral', 'No fault found'],
            ...['Step 2', 'next', 'Test: Is it plugged in?', 'normal (yes)', 'out (no)'],
            ...['Conclusion', 'The bulb is bad', 'Bulb: Burnt through', 'Cord'],
            ...['Still wrong: go to', 'referral, Ask the', 'workshop'],
            ...['Go to step 1', 'Look at the lamp'],
            ...['Referral', 'Ask the workshop'],
        ]);
    });

    test('says what it shows to people who cannot see it', () => {
        const svg = draw(
            tree(`
            step look "Look at the lamp" { test light { normal -> fine  dim, dark -> bad } }
            conclude bad "The bulb is bad" { bulb.burnt }
            refer fine "No fault found" because "it shines"
            `),
        );
        expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="drawing-title drawing-description"/);
        expect(svg).toContain('<title id="drawing-title">The lamp is dark</title>');
        expect(/<desc id="drawing-description">([^<]*)</.exec(svg)?.[1]?.split('\n')).toEqual([
            '1 step and 2 ends.',
            escapeXml(safetyNotice()),
            'It begins at step 1, Look at the lamp.',
            'Step 1, Look at the lamp: normal (yes) leads to referral, No fault found; dim (a little) or dark (no) leads to conclusion, The bulb is bad.',
        ]);
    });

    test('has one line for each way out, and an arrow at its end', () => {
        const svg = draw(
            tree(`
            step look { test light { normal -> fine  dim -> next  dark -> next  cannot be read -> fine } }
            step next { do "Pull the plug." cannot be done -> fine  confirm plug out -> bad }
            disagree -> fine
            conclude bad { cord }
            refer fine
            `),
        );
        // Two ways out of the first step (what leads to one place shares a line), three out of the second.
        expect(svg.match(/fill="none" stroke="#5b6770"/g)).toHaveLength(5);
        expect(svg.match(/h9l-4.5 8z/g)).toHaveLength(5);
        expect(textsOf(svg)).toEqual(expect.arrayContaining(['cannot be done', 'out (no)', 'otherwise']));
    });

    test('shows the guards of builds', () => {
        const svg = draw({
            'lamp.fault': `
equipment lamp "Lamp" {
  option size "Size" { small large }
  option base "Base" { round flat }
  part cord "Cord" { fault broken "Broken" }
  test light "Does it shine?" { observe by eye  normal yes  dark no }
}
tree dark "Dark" of lamp {
  step look for small { test light { normal -> fine for not (small and (round or flat))  dark -> fine for base.round } }
  refer fine for large
}`,
        });
        const text = textsOf(svg).join(' ');
        expect(text).toContain('Only for small');
        expect(text).toContain('normal (yes), for not (small and (round or flat)), dark (no), for base.round');
        expect(text).toContain('Only for large');
    });

    test('shows what no branch leads to beside the rest', () => {
        const svg = draw(
            tree('step look { go bad }\nstep alone "Alone" { go bad }\nconclude bad\nconclude lost "Lost"'),
        );
        expect(textsOf(svg)).toEqual(expect.arrayContaining(['Alone', 'Lost']));
    });
});

describe('a tree that is not finished', () => {
    test.each([
        ['without anything in it', ''],
        ['with a step that leads nowhere', 'step look'],
        ['with a branch to a step that is not there', 'step look { test light { normal -> nowhere } }'],
        ['with a test that is not there', 'step look { test nothing { normal -> look } }'],
        ['with a branch without a target', 'step look { test light { normal -> } }'],
        ['that leads back to itself', 'step look { go look }'],
    ])('%s is drawn', (_, body) => {
        expect(textsOf(draw(tree(body)))).toContain('The lamp is dark');
    });

    test('names the step that is missing', () => {
        expect(textsOf(draw(tree('step look { go nowhere }')))).toEqual(
            expect.arrayContaining(['There is no such step', 'nowhere']),
        );
    });
});

test('nothing that an author wrote breaks the drawing', () => {
    const odd = `a\u0001<script>alert("1")</script> & ]]> \u202E\uFFFE ' \uD800 &amp;`;
    const svg = draw(
        tree(
            `note "x"\nstep look "${odd.replaceAll('"', '\\"')}" { do "${'w'.repeat(500)}" go bad }\nconclude bad "日本語の長い題名日本語の長い題名日本語の長い題名"`,
        ),
    );
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;script&gt;');
    expect(svg).toContain('&amp;amp;');
});

describe('whole trees', () => {
    test.each([
        'examples/cold-room',
        'examples/dust-extractor',
        'examples/ev-charger',
        'tests/worlds/gas-boiler',
        'tests/worlds/lift-door',
    ])('of %s are drawn', folder => {
        const files = Object.entries(filesOf(folder)).filter(([name]) => name.endsWith('.fault'));
        const sources = files.map(([file, text]) => ({ file, text }));
        const { model } = readWorkspace(sources, { presence: () => 'present' });
        const trees = [...model.files.values()].flatMap(file => file.trees);
        expect(trees.length).toBeGreaterThan(0);
        for (const one of trees) {
            const svg = drawTree(one, model);
            expectWellFormed(svg);
            for (const step of one.steps) expect(svg).toContain(`>Step ${one.steps.indexOf(step) + 1}<`);
            expect(svg.match(/>Conclusion</g)).toHaveLength(one.conclusions.length);
            expect(svg.match(/>Referral</g) ?? []).toHaveLength(one.referrals.length);
            expect(drawTree(one, model)).toBe(svg);
        }
    });

    test('of ten thousand steps take no long time', () => {
        const steps = Array.from(
            { length: 10_000 },
            (_, index) => `step s${index} { test light { normal -> fine  dark -> s${index + 1} } }`,
        );
        const started = process.cpuUsage().user;
        const svg = draw(tree(`${steps.join('\n')}\nconclude s10000\nrefer fine`));
        expect(svg).toContain('>Step 10000<');
        expect((process.cpuUsage().user - started) / 1e6).toBeLessThan(15);
    });
});
