/** What a drawing says for safety: signal words as text, hazards, gates, the notice once, and colors that can be read. */
import { describe, expect, test } from 'vitest';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { drawTree } from '../../language/src/drawing/draw-tree.js';
import { markLooks } from '../../language/src/drawing/marks.js';
import { escapeXml } from '../../language/src/drawing/svg-text.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';

const oven = `
equipment oven "Oven" {
  caution "Wear shoes with caps."
  hazard mains "Mains voltage" { electrical 230 V AC }
  zone box "Terminal box" { exposes mains while lid open  warning about mains "Mains can kill." }
  condition lid "Lid" { shut open }
  supply spur carries mains { fault dead }
  part coil "Heating coil" in box { danger "The coil glows <b>&</b> burns."  fault open  replace "Fit a coil" under lockout }
  flow heat-way: spur -> coil -> [hot]
  test hot "Is it hot?" { observe by touch normal yes absent no shows stopped }
  test volts "Voltage" in box { measure voltage AC  needs lid open  normal 230 V ± 10 %  absent otherwise }
  gate lockout "Lock out" { controls mains  isolate "Off"  restore "On" }
  gate beside "Live measuring" { permits measuring mains }
}
procedure look-inside "Look inside" of oven {
  step peep { warning "Mind the lamp."  gate lockout  do "Look" at coil  restore lockout  go seen }
  result seen
}
tree cold "The oven stays cold" of oven {
  complaint hot absent
  cannot be read -> ask
  step measure { gate beside  do "Open the lid" sets lid open  test volts { normal -> inside  absent -> ask } }
  step inside { follow look-inside { seen -> close } }
  step close { gate lockout  do "Shut the lid" sets lid shut  restore lockout  go bad-coil }
  conclude bad-coil "The coil is open" { coil.open }
  refer ask "Ask"
}
`;

function draw(text: string): string {
    const { model } = readWorkspace([{ file: 'oven.fault', text }], { presence: () => 'missing' });
    const tree = [...model.files.values()].flatMap(file => file.trees)[0];
    if (!tree) throw new Error('There is no tree in the text.');
    return drawTree(tree, model);
}

/** The texts of each card, one string a card, with the lines of an entry joined by a space. */
function cardsOf(svg: string): readonly string[] {
    return [...svg.matchAll(/<g>([\s\S]*?)<\/g>/g)].map(([, card = '']) =>
        [...card.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, line = '']) => line).join(' '),
    );
}

const svg = draw(oven);
const cards = cardsOf(svg);

describe('a card', () => {
    test('shows signal word and text of everything that is touched, the gravest first, escaped', () => {
        const [first = ''] = cards;
        expect(first).toContain('WARNING about Mains voltage: Mains can kill.');
        expect(first).toContain('CAUTION: Wear shoes with caps.');
        expect(first.indexOf('WARNING')).toBeLessThan(first.indexOf('CAUTION'));
        expect(first.indexOf('CAUTION')).toBeLessThan(first.indexOf('Open the lid'));
        const end = cards.find(card => card.startsWith('Conclusion')) ?? '';
        expect(end).toContain('DANGER: The coil glows &lt;b&gt;&amp;&lt;/b&gt; burns.');
        expect(svg).not.toContain('<b>');
    });

    test('shows the hazard that is met, and what controls it', () => {
        expect(cards[0]).toContain(
            'Hazard at Terminal box: Mains voltage (only while Lid is open); not controlled: measuring beside it is permitted by the gate Live measuring',
        );
        expect(cards.find(card => card.startsWith('Conclusion'))).toContain('controlled by the gate Lock out');
    });

    test('says where a gate is closed, restored, or permits work', () => {
        expect(cards[0]).toContain(
            'Gate: Live measuring; measuring is permitted until the end of the step; not under control',
        );
        const close = cards.find(card => card.startsWith('Step 3')) ?? '';
        expect(close).toContain('Gate closed: Lock out; under control from here: Mains voltage');
        expect(close).toContain('End of gate: Lock out; no longer under control: Mains voltage');
    });

    test('that follows a procedure says what is met in it', () => {
        const inside = cards.find(card => card.startsWith('Step 2')) ?? '';
        expect(inside).toContain('WARNING: Mind the lamp.');
        expect(inside).toContain('DANGER: The coil glows');
        expect(inside).toContain('Gate closed: Lock out');
        expect(inside).toContain('controlled by the gate Lock out');
    });
});

test('the notice stands in the drawing once, and once in its description', () => {
    const seen = [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, line = '']) => line).join(' ');
    expect(seen.split(escapeXml(safetyNotice()))).toHaveLength(2);
    const description = /<desc [^>]*>([^<]*)</.exec(svg)?.[1] ?? '';
    expect(description.split(escapeXml(safetyNotice()))).toHaveLength(2);
});

test('people who cannot see the drawing are told every caution at its step', () => {
    const description = /<desc [^>]*>([^<]*)</.exec(svg)?.[1]?.split('\n') ?? [];
    expect(description).toContain('At step 1, measure: WARNING about Mains voltage: Mains can kill.');
    expect(description).toContain('At step 3, close: Gate closed: Lock out; under control from here: Mains voltage.');
});

test('a tree of unknown equipment still shows what its steps say', () => {
    const text = 'tree cold of nothing { step look { danger "Hot." go ask } refer ask }';
    expect(cardsOf(draw(text))[0]).toContain('DANGER: Hot.');
});

/** The contrast ratio of two colors (WCAG 2.2, "contrast ratio" and "relative luminance"; formulas from memory). */
function contrast(one: string, other: string): number {
    const luminance = (color: string): number => {
        const [red = 0, green = 0, blue = 0] = [1, 3, 5]
            .map(at => Number.parseInt(color.slice(at, at + 2), 16) / 255)
            .map(part => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
}

describe('the colors', () => {
    test('are compared rightly: black on white is 21 to 1, and #767676 on white just above 4.5 to 1', () => {
        expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
        expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
    });

    test.each(Object.entries(markLooks))(
        'of %s can be read on their ground: text 7 to 1, signs and edges 3 to 1',
        (_, look) => {
            const grounds = look.fill === undefined ? ['#f5f8fb', '#e7f4ea', '#fdf3df'] : [look.fill];
            for (const ground of grounds) {
                expect(contrast(look.text, ground)).toBeGreaterThanOrEqual(7);
                expect(contrast(look.line, ground)).toBeGreaterThanOrEqual(3);
            }
        },
    );

    test('do not depend on the ground that the drawing is shown on: it brings a white one of its own size', () => {
        const [, width, height] = /width="([\d.]+)" height="([\d.]+)" font-family/.exec(svg) ?? [];
        expect(svg).toContain(`<rect width="${width}" height="${height}" fill="#ffffff"/>`);
    });
});
