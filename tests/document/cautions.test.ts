/** What can hurt at each step of an exported document: the hazards, what controls them, and whose statements apply. */
import { describe, expect, test } from 'vitest';
import { safetyNotices } from '../../language/src/core/safety/notice.js';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { Step, TreeDocument } from '../../language/src/document/types.js';
import { exportFrom, schemaErrors } from './support.js';

/** An invented pump, in which every sort of caution comes up. */
const pump = `
kind valve-kind "Valve" {
  warning "Valves spit."
  fault stuck "Stuck"
  test feel "Is it warm?" { observe by touch normal warm absent cold shows stopped }
}
equipment pump "Pump" {
  caution "Keep the floor dry."
  option drive { electric steam }
  hazard mains "Mains voltage" for electric { electrical 230 V AC }
  hazard heat "Hot casing" { thermal 80 °C  cools in 20 min  danger about heat "The casing burns." }
  zone box "Terminal box" { exposes mains while lid open  notice "Mind the edges." }
  zone casing "Casing" { exposes heat }
  condition lid "Lid" { shut open }
  supply spur "Spur" carries mains for electric { fault dead "Dead" }
  part motor "Motor" in box { caution "Heavy."  fault open "Open"  replace "Fit a motor" under lockout }
  part inlet is valve-kind "Inlet valve" in casing { replace "Fit a valve" under lockout }
  part outlet is valve-kind "Outlet valve" in casing { replace "Fit a valve" under lockout }
  flow drive-way: motor -> inlet -> outlet -> [runs]
  test runs "Does it run?" { observe by ear normal yes absent no shows stopped }
  test volts "Voltage" in box { measure voltage AC  warning "Two hands, one probe each."  needs lid open  normal 230 V ± 10 %  absent otherwise }
  gate lockout "Lock out" {
    controls mains for electric, heat
    warning "Do it in this order."
    isolate "Turn it off."  prove "Try it."  restore "Turn it on."
  }
  gate beside "Measure beside live parts" { permits measuring mains }
}
procedure touch-it "Touch it" of pump about valve-kind {
  notice "Both hands free."
  step hand { test it.feel { normal -> good  absent -> bad } }
  result good
  result bad
}
tree stands "The pump stands still" of pump {
  complaint runs absent
  cannot be read -> ask
  notice "Only for the night shift."
  step measure {
    danger "Live parts."
    gate beside
    do "Open the lid" sets lid open
    test volts { normal -> cool  absent -> ask }
  }
  step cool { wait 20 min until heat safe "Let it cool."  go touch }
  step touch { follow touch-it with inlet { good -> touch-other  bad -> bad-inlet } }
  step touch-other { follow touch-it with outlet { good -> lock  bad -> bad-outlet } }
  step lock { gate lockout  do "Turn the shaft" at motor  restore lockout  go bad-motor }
  conclude bad-inlet { inlet.stuck }
  conclude bad-outlet { outlet.stuck }
  conclude bad-motor { motor.open }
  refer ask "Ask"
}
`;

const exported = exportFrom({ 'pump.fault': pump }, 'stands');

async function stepOf(name: string, from: Promise<TreeDocument> = exported): Promise<Step> {
    const { tree, procedures } = await from;
    const found = [...tree.steps, ...procedures.flatMap(({ steps }) => steps)].find(({ id }) => id === name);
    if (!found) throw new Error(`There is no step ${name}.`);
    return found;
}

const electric = { choice: 'drive.electric' };

test('the document is valid and carries the notice in English', async () => {
    expect(schemaErrors(await exported)).toEqual([]);
    expect((await exported).safetyNotice).toEqual({ en: safetyNotices.en });
    expect((await exportFrom({ 'pump.fault': pump }, 'stands', 'de')).safetyNotice['en']).toBe(safetyNotices.en);
});

describe('a step', () => {
    test('names whose statements apply there, the hazard met, and the gate that permits to work beside it', async () => {
        expect((await stepOf('measure')).cautions).toEqual([
            { type: 'statements', equipment: 'pump' },
            { type: 'statements', tree: 'stands' },
            { type: 'statements', zone: 'box' },
            { type: 'statements', test: 'volts' },
            {
                type: 'hazard',
                hazard: 'mains',
                zone: 'box',
                when: { condition: 'lid', value: 'open' },
                controls: [{ type: 'permit', gate: 'beside', activity: 'measuring' }],
                guard: electric,
            },
            { type: 'gate', gate: 'beside', change: 'permits', hazard: 'mains', activity: 'measuring' },
        ]);
    });

    test('has no cautions where nothing is touched', async () => {
        expect(await stepOf('cool')).not.toHaveProperty('cautions');
        expect(await stepOf('touch')).not.toHaveProperty('cautions');
    });

    test('says what its gates close and restore, and that a closed gate controls the hazard', async () => {
        expect((await stepOf('lock')).cautions).toEqual([
            { type: 'statements', gate: 'lockout' },
            { type: 'statements', part: 'motor' },
            { type: 'statements', zone: 'box' },
            {
                type: 'hazard',
                hazard: 'mains',
                zone: 'box',
                when: { condition: 'lid', value: 'open' },
                controls: [{ type: 'gate', gate: 'lockout', guard: electric }],
                guard: electric,
            },
            { type: 'gate', gate: 'lockout', change: 'closed', hazard: 'mains', guard: electric },
            { type: 'gate', gate: 'lockout', change: 'closed', hazard: 'heat' },
            { type: 'gate', gate: 'lockout', change: 'restored', hazard: 'mains', guard: electric },
            { type: 'gate', gate: 'lockout', change: 'restored', hazard: 'heat' },
        ]);
    });

    test('of a procedure says for which subject it is so, with the statements of the kind and the wait that was made', async () => {
        const of = (part: string) => [
            { type: 'statements', procedure: 'touch-it', withPart: part },
            { type: 'statements', part, withPart: part },
            { type: 'statements', zone: 'casing', withPart: part },
            { type: 'statements', hazard: 'heat', withPart: part },
            { type: 'hazard', hazard: 'heat', zone: 'casing', withPart: part, controls: [{ type: 'wait' }] },
        ];
        const withoutZone = (part: string) =>
            of(part).filter(caution => !('zone' in caution && caution.type === 'statements'));
        expect((await stepOf('hand')).cautions).toEqual([...withoutZone('inlet'), ...withoutZone('outlet')]);
    });
});

test('an end says what its repairs meet, under which gates', async () => {
    const { tree } = await exported;
    expect(tree.conclusions.find(({ id }) => id === 'bad-inlet')?.cautions).toEqual([
        { type: 'statements', part: 'inlet' },
        { type: 'statements', gate: 'lockout' },
        { type: 'statements', hazard: 'heat' },
        {
            type: 'hazard',
            hazard: 'heat',
            zone: 'casing',
            controls: [{ type: 'gate', gate: 'lockout' }, { type: 'wait' }],
        },
    ]);
    expect(tree.referrals[0]).not.toHaveProperty('cautions');
});

test('one build keeps its own cautions and no others', async () => {
    const document = await exported;
    const steam = sliceToBuild(document, ['steam']).document;
    const other = sliceToBuild(document, ['electric']).document;
    if (!steam || !other) throw new Error('The document could not be cut down.');
    expect(steam.safetyNotice).toEqual(document.safetyNotice);
    const types = (one: TreeDocument) => one.tree.steps[0]?.cautions?.map(({ type }) => type);
    expect(types(steam)).toEqual(['statements', 'statements', 'statements', 'statements']);
    expect(types(other)).toEqual(types(document));
});
