/** Curves in the exported document: their laws, and which way a table is read. */
import { expect, test } from 'vitest';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';

const text = `
curve loop { follows loop pressure gauge 0 .. 10 bar }
equipment e {
  curve pt "Pt1000" { follows platinum 1000 Ω  from -40 °C to 120 °C  note "Ours" }
  curve ntc { follows ntc 10 kΩ at 25 °C beta 3950 K }
  curve sh { follows steinhart-hart 1.129148e-3 2.34125e-4 8.76741e-8 }
  curve pair { follows thermocouple K }
  curve wire { follows copper 12.4 Ω at 20 °C }
  curve rod { follows aluminum 3 Ω at 20 °C constant 226 K }
  table chart from temperature to pressure gauge { 0 °C = 1 bar  20 °C = 4 bar }
  part p { fault f }
  test air { measure temperature  normal 0 °C .. 20 °C  low otherwise  high otherwise }
  test line { measure pressure gauge  normal chart of air ± 5 %  wrong otherwise }
  test warm { calculate temperature difference from air - chart(line)  normal < 5 K  high otherwise }
  test current { measure current DC  normal loop of line ± 1 %  wrong otherwise }
  test back { measure pressure gauge  normal loop of current ± 1 %  wrong otherwise }
  test look { checks p.f as bad  observe by eye  normal yes  bad no }
}
tree t of e { complaint look bad  step s { test look { normal -> r  bad -> c } }  conclude c { p.f }  refer r }`;

function exported() {
    const { model } = readWorkspace([{ file: 'a.fault', text }], { presence: () => 'present' });
    const [tree] = model.files.get('a.fault')?.trees ?? [];
    if (!tree) throw new Error('There is no tree.');
    const written = writeTreeDocument(model, tree, {
        tool: { name: 'halfsplit', version: '0' },
        digests: new Map([['a.fault', '0'.repeat(64)]]),
    });
    if (!written.document) throw new Error(JSON.stringify(written.problems));
    return written.document.equipment;
}

test('each law has its figures, own curves come before those of the file', () => {
    const laws = exported().curves.map(({ id, law, from, to }) => ({ id, ...law, from: from?.value, to: to?.value }));
    const amount = (value: number, unit: string) => expect.objectContaining({ value, unit }) as unknown;
    const limits = { from: undefined, to: undefined };
    expect(laws).toEqual([
        { id: 'pt', law: 'platinum', atZero: amount(1000, 'Ohm'), from: -40, to: 120 },
        {
            id: 'ntc',
            law: 'ntc',
            resistance: amount(10, 'kOhm'),
            temperature: amount(25, 'Cel'),
            beta: { value: 3950, unit: 'K', display: '3950 K' },
            ...limits,
        },
        {
            id: 'sh',
            law: 'steinhart-hart',
            a: amount(0.001129148, '1'),
            b: amount(0.000234125, '1'),
            c: amount(8.76741e-8, '1'),
            ...limits,
        },
        { id: 'pair', law: 'thermocouple', letter: 'K', ...limits },
        {
            id: 'wire',
            law: 'winding',
            resistance: amount(12.4, 'Ohm'),
            temperature: amount(20, 'Cel'),
            constant: amount(234.5, 'K'),
            ...limits,
        },
        {
            id: 'rod',
            law: 'winding',
            resistance: amount(3, 'Ohm'),
            temperature: amount(20, 'Cel'),
            constant: { value: 226, unit: 'K', display: '226 K' },
            ...limits,
        },
        {
            id: 'loop',
            law: 'loop',
            quantity: 'pressure',
            modes: ['gauge'],
            low: amount(0, 'bar'),
            high: amount(10, 'bar'),
            ...limits,
        },
    ]);
});

test('a table is read from the side that its value is of', () => {
    const tests = new Map(exported().tests.map(one => [one.id, one]));
    const bandOf = (id: string) => tests.get(id)?.outcomes[0]?.cases[0]?.bands?.[0];
    expect(bandOf('line')).toMatchObject({ table: 'chart', input: 'air' });
    expect(bandOf('line')).not.toHaveProperty('backward');
    expect(bandOf('current')).not.toHaveProperty('backward');
    expect(bandOf('back')).toMatchObject({ table: 'loop', input: 'current', backward: true });
    expect(tests.get('warm')?.methods[0]).toMatchObject({
        expression: { operator: '-', right: { table: 'chart', argument: { reading: 'line' }, backward: true } },
    });
});
