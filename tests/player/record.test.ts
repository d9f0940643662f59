/** The record of a session: written line by line, taken up again, and described by its schema. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import {
    answer,
    back,
    begin,
    finish,
    recordOf,
    resume,
    screenOf,
    type Session,
    why,
} from '../../language/src/player/index.js';
import { root } from '../house/project.mjs';
import { walkedTrees } from './walks.js';
import { session } from './walks.js';

const text = `equipment lamp "Lamp, invented" {
  option size "Size" { small "Small"  large "Large" }
  part bulb "Bulb" { replace "Fit a new bulb." takes 1 min fault broken "Broken" rate 1 per 1e6 h }
  part cell "Cell" { replace "Fit a new cell." takes 1 min fault flat "Flat" rate 1 per 1e6 h }
  test light "Does it light?" { checks bulb.broken as absent, cell.flat as absent observe by eye takes 1 min normal yes absent no }
  test volts "Voltage" { checks cell.flat as low measure voltage DC takes 1 min normal >= 3 V for small normal >= 6 V for large low otherwise }
}
tree dark "It is dark" of lamp {
  complaint light absent
  still wrong -> ask
  step look "Look" { test light { normal -> fine  absent -> measure } }
  step measure "Measure" { do "Open it." takes 1 min  test volts { normal -> bulb-broken  low -> cell-flat } }
  conclude bulb-broken "The bulb" { bulb.broken }
  conclude cell-flat "The cell" { cell.flat }
  refer fine "No fault found" because "it lights"
  refer ask "Ask" because "it is still dark"
}
`;
const [walked] = walkedTrees({ 'lamp.fault': text });
if (!walked) throw new Error('The text has a tree.');
const { tree } = walked;

function whole(): Session {
    const times = Array.from({ length: 9 }, (_, index) => `2031-01-01T10:0${index}:00Z`);
    const start = session(begin(tree, { digest: 'a'.repeat(64), time: times[0] }));
    const looked = session(answer(start, 'normal', times[1]));
    const again = session(answer(session(back(looked, times[2])), 'absent', times[3]));
    const opened = [...'x'].reduce(at => session(answer(at, 'small')), again);
    const measured = session(answer(session(answer(opened, 'done')), { reading: 2900, unit: 'mV' }, times[4]));
    return session(finish(measured, { repaired: true, complaint: 'still there' }, times[5]));
}

const lines = recordOf(whole());
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
    JSON.parse(readFileSync(join(root, 'language/schema/session-record.schema.json'), 'utf8')) as object,
);

test('a record has a line for each event, also for what was taken back', () => {
    expect(lines.map(line => JSON.parse(line) as unknown)).toEqual([
        {
            event: 'begin',
            format: 'halfsplit-session',
            formatVersion: '1.0',
            equipment: 'lamp',
            tree: 'dark',
            digest: 'a'.repeat(64),
            time: '2031-01-01T10:00:00Z',
        },
        { event: 'answer', answer: 'normal', time: '2031-01-01T10:01:00Z' },
        { event: 'back', time: '2031-01-01T10:02:00Z' },
        { event: 'answer', answer: 'absent', time: '2031-01-01T10:03:00Z' },
        { event: 'answer', answer: 'small' },
        { event: 'answer', answer: 'done' },
        { event: 'answer', answer: { reading: 2900, unit: 'mV' }, time: '2031-01-01T10:04:00Z' },
        { event: 'finish', repaired: true, complaint: 'still there', time: '2031-01-01T10:05:00Z' },
    ]);
});

test('every line is as the schema says', () => {
    for (const line of lines) expect(validate(JSON.parse(line)), line).toBe(true);
    for (const line of ['{}', '{"event":"answer"}', '{"event":"finish","complaint":"maybe"}']) {
        expect(validate(JSON.parse(line)), line).toBe(false);
    }
});

test('every beginning of a record gives the session that it had then', () => {
    for (let count = 1; count <= lines.length; count++) {
        const { session: resumed } = resume(tree, lines.slice(0, count), 'a'.repeat(64));
        expect(resumed && recordOf(resumed)).toEqual(lines.slice(0, count));
    }
    const { session: resumed } = resume(tree, ['', ...lines, '  ']);
    expect(resumed && screenOf(resumed)).toEqual(screenOf(whole()));
    expect(resumed && why(resumed)).toEqual(why(whole()));
});

describe('a record that cannot be taken up', () => {
    test.each<[string, readonly string[], number, string]>([
        ['nothing', [], 1, 'The record has no line.'],
        ['no JSON', [lines[0] ?? '', '{"event":'], 2, 'The line is no JSON.'],
        ['no object', [lines[0] ?? '', '[]'], 2, 'The line is no JSON object.'],
        ['no such event', [lines[0] ?? '', '{"event":"sleep"}'], 2, 'There is no such event.'],
        ['an answer without one', [lines[0] ?? '', '{"event":"answer"}'], 2, 'The line has no answer.'],
        [
            'a reading without a unit',
            [lines[0] ?? '', '{"event":"answer","answer":{"reading":1}}'],
            2,
            'A reading is a number with a unit.',
        ],
        ['no beginning', lines.slice(1), 1, 'A record begins with `begin`.'],
        ['two beginnings', [lines[0] ?? '', lines[0] ?? ''], 2, 'The session has begun already.'],
        [
            'an answer that does not fit',
            [lines[0] ?? '', '{"event":"answer","answer":"maybe"}'],
            2,
            '`maybe` is no outcome of `light`.',
        ],
        [
            'an end that is none',
            [lines[0] ?? '', '{"event":"finish","complaint":"gone"}'],
            2,
            'The tree has not come to an end.',
        ],
        ['nothing to take back', [lines[0] ?? '', '{"event":"back"}'], 2, 'This is where the session began.'],
        ['another tree', [(lines[0] ?? '').replace('dark', 'bright')], 1, 'This is the record of `bright` of `lamp`.'],
        ['another version', [(lines[0] ?? '').replace('1.0', '2.0')], 1, 'Only records of version 1 can be taken up.'],
        [
            'a choice that is none',
            [(lines[0] ?? '').replace('"dark"', '"dark","choices":["huge"]')],
            1,
            'There is no choice `huge`.',
        ],
    ])('%s', (_, given, line, reason) => {
        expect(resume(tree, given)).toEqual({ problem: { line, why: reason } });
    });

    test('another document', () => {
        expect(resume(tree, lines, 'b'.repeat(64))).toEqual({
            problem: { line: 1, why: 'The record is of another version of the document.' },
        });
    });
});
