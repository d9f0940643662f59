/** Cutting a document down to one build leaves no guard, and nothing that refers to what the build lacks. */
import { expect, test } from 'vitest';
import { holds, sliceToBuild } from '../../language/src/document/slice.js';
import type { Guard, TreeDocument } from '../../language/src/document/types.js';
import { exportFrom, schemaErrors } from './support.js';

const world = {
    'pump.fault': `
equipment pump "Pump" {
  option drive "Drive" { belt "Belt"  direct "Direct" }
  option belt-guard "Belt guard" for belt { mesh  plate }
  option cover { mesh  none }
  exclude direct with cover.none because "it is noisy"
  hazard mains { electrical 230 V AC }
  hazard belt-nip for belt { mechanical  runs down in 5 s }
  zone housing { exposes mains, belt-nip }
  supply spur carries mains in housing { fault dead rate 2 per 1e6 h }
  part motor in housing { replace "Replace the motor" takes 60 min under lockout  fault open rate 1 per 1e6 h }
  part v-belt in housing for belt { replace "Replace the belt" takes 20 min under lockout  fault torn rate 9 per 1e6 h }
  flow drive-line: spur -> motor -> v-belt -> [turns]
  test turns { observe by eye  takes 1 min  normal yes  absent no }
  test belt-look for belt { observe by eye  takes 2 min  checks v-belt.torn as gone  normal yes  gone no }
  gate lockout {
    controls mains, belt-nip
    isolate mains "Turn the isolator off"
    release belt-nip "Wait for the belt to stop" 5 s
    prove   mains "Prove it dead"
    restore "Turn the isolator on"
  }
}
tree stands "The pump stands" of pump {
  complaint turns absent
  step look { test belt-look for belt { normal -> bad-motor  gone -> bad-belt }  go bad-motor for direct }
  conclude bad-motor { motor.open, v-belt.torn }
  conclude bad-belt for belt { v-belt.torn }
  refer no-mains because "there is no mains" { spur.dead }
}
`,
};

const whole = await exportFrom(world, 'stands');

test('a slice has one choice of each option, no guard and no exclusion', () => {
    const document = slice(whole, ['belt', 'plate', 'cover.none']);
    expect(document.build).toEqual(['drive.belt', 'belt-guard.plate', 'cover.none']);
    expect(document.equipment.options.map(option => option.choices.map(choice => choice.id))).toEqual([
        ['drive.belt'],
        ['belt-guard.plate'],
        ['cover.none'],
    ]);
    expect(document.equipment.exclusions).toEqual([]);
    expect(JSON.stringify(document)).not.toContain('"guard":');
    expect(schemaErrors(document)).toEqual([]);
});

test('what a build lacks is gone, with all that refers to it', () => {
    const document = slice(whole, ['direct', 'cover.mesh']);
    expect(document.equipment.parts.map(({ id }) => id)).toEqual(['motor']);
    expect(document.equipment.tests.map(({ id }) => id)).toEqual(['turns']);
    expect(document.equipment.zones[0]?.exposures).toEqual([{ hazard: 'mains' }]);
    expect(document.equipment.flows[0]?.chain).toEqual([
        { type: 'place', member: 'spur' },
        { type: 'place', member: 'motor' },
        { type: 'test-point', tests: ['turns'] },
    ]);
    expect(document.tree.steps).toEqual([{ id: 'look', statements: [{ type: 'go', to: 'bad-motor' }] }]);
    expect(document.tree.conclusions.map(({ id, faults }) => ({ id, faults }))).toEqual([
        { id: 'bad-motor', faults: [{ fault: 'motor.open' }] },
    ]);
    expect(document.tree.conclusions[0]?.repairs?.map(({ faults }) => faults)).toEqual([['motor.open']]);
    expect(JSON.stringify(document)).not.toMatch(/belt/);
});

test('an element of a gate about a hazard that the build lacks is gone, and not about every hazard', () => {
    const elements = slice(whole, ['direct', 'cover.mesh']).equipment.gates[0]?.elements;
    expect(elements?.map(({ element, hazards }) => ({ element, hazards }))).toEqual([
        { element: 'isolate', hazards: ['mains'] },
        { element: 'prove', hazards: ['mains'] },
        { element: 'restore', hazards: undefined },
    ]);
});

test.each([
    [['belt'], 'Name one choice of `belt-guard`: `belt-guard.mesh`, `belt-guard.plate`.'],
    [['belt', 'direct', 'cover.mesh'], 'Name one choice of `drive`: `drive.belt`, `drive.direct`.'],
    [['chain'], '`pump` has no choice `chain`.'],
    [['mesh'], '`mesh` can be `belt-guard.mesh` or `cover.mesh`; say which.'],
    [['direct', 'plate', 'cover.mesh'], 'This build has no option `belt-guard`.'],
    [['direct', 'none'], 'There is no unit with `drive.direct`, `cover.none`. The author says why: it is noisy'],
])('the choices %j make no build', (choices, problem) => {
    expect(sliceToBuild(whole, choices)).toEqual({ problem });
});

test('data of others stays as it is', () => {
    const extensions = { 'org.example.shop': [{ guard: { choice: 'drive.belt' }, part: 'v-belt' }] };
    expect(slice({ ...whole, extensions }, ['direct', 'cover.mesh']).extensions).toEqual(extensions);
});

test('a slice cannot be cut again', () => {
    const document = slice(whole, ['direct', 'cover.mesh']);
    expect(sliceToBuild(document, ['direct', 'cover.mesh']).problem).toBe(
        'This document is cut down to one build already.',
    );
});

test('a tree that is not for the build has no slice', async () => {
    const tree = 'tree stands "The pump stands" of pump for belt {';
    const files = { 'pump.fault': world['pump.fault'].replace(/tree stands .*\{/, tree) };
    const document = await exportFrom(files, 'stands');
    expect(sliceToBuild(document, ['direct', 'cover.mesh']).problem).toBe('The tree `stands` is not for this build.');
    expect(slice(document, ['belt', 'plate', 'none']).tree).not.toHaveProperty('guard');
});

test('guards mean what they say', () => {
    const build = new Set(['drive.belt', 'cover.none']);
    const belt: Guard = { choice: 'drive.belt' };
    const direct: Guard = { choice: 'drive.direct' };
    expect(holds(belt, build)).toBe(true);
    expect(holds({ not: belt }, build)).toBe(false);
    expect(holds({ all: [belt, direct] }, build)).toBe(false);
    expect(holds({ any: [belt, direct] }, build)).toBe(true);
    expect(holds({ any: [direct, { all: [belt, { not: direct }] }] }, build)).toBe(true);
});

function slice(document: TreeDocument, choices: readonly string[]): TreeDocument {
    const { document: cut, problem } = sliceToBuild(document, choices);
    if (!cut) throw new Error(problem);
    return cut;
}
