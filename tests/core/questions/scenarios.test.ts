/** Scenarios as they are played: which pass, and why others do not; text in, what has happened out. */
import { describe, expect, test } from 'vitest';
import { playScenariosOf } from '../../../language/src/core/questions/played-scenarios.js';
import { playScenario, type ScenarioResult } from '../../../language/src/core/questions/scenarios.js';
import { readTexts } from '../../support/read-texts.js';

/** An invented harbor light. What the battery shows is left open; the lead comes and goes. */
const light = `equipment harbor-light "Harbor light" {
  option power "Power" { cell "Battery"  solar "Solar panel" }
  option lens "Lens" { red "Red"  green "Green"  white "White" }
  exclude solar with green because "it is not sold"
  part battery "Battery" for cell {
    fault flat "Flat" rate 60 per 1e6 h { makes flash faint or absent }
  }
  part panel "Solar panel" for solar {
    fault dirty "Dirty" rate 90 per 1e6 h { causes guard.tripped after 1 min }
  }
  part guard "Battery guard" {
    fault tripped "Tripped" only when caused
  }
  part lead "Lead of the lamp" {
    fault loose "Loose" comes and goes rate 12 per 1e6 h
  }
  part hood "Hood" {
    fault cracked "Cracked" rate 4 per 1e6 h
  }
  test flash "Does the light flash?" {
    checks panel.dirty as absent, guard.tripped as absent, lead.loose as absent
    observe by eye
    takes 2 min for solar
    takes 3 min
    normal yes
    faint "faintly"
    absent no
  }
  test pull "Does the light come when you pull at the lead?" {
    checks lead.loose as lights
    observe by hand
    takes 4 min
    normal no
    lights yes
  }
  test drips "Does water drip from the hood?" {
    checks hood.cracked as drips
    observe by eye
    takes 1 min
    normal no
    drips yes
  }
}

tree dark "The light is dark" of harbor-light {
  complaint flash absent, faint
  step watch "Watch the light" {
    test flash { normal -> no-fault  faint -> weak-cell  absent -> pull-at-lead }
  }
  step pull-at-lead "Pull at the lead" {
    test pull { lights -> loose-lead  normal -> no-power }
  }
  conclude weak-cell "The battery is weak" { battery.flat }
  conclude loose-lead "The lead is loose" { lead.loose }
  conclude no-power "There is no power" { battery.flat for cell, panel.dirty for solar, guard.tripped for solar }
  refer no-fault "No fault found" because "the light flashes"
}

tree wet "Water in the light" of harbor-light {
  complaint drips drips
  step look "Look at the hood" {
    test drips { normal -> no-fault  drips -> further }
  }
  step further "Go on" {
    continue with dark
  }
  refer no-fault "No fault found" because "the hood is dry"
}
`;

/** How the scenario with these lines in its braces goes. */
function play(lines: string, tree = 'dark', equipment = light): ScenarioResult {
    const { model, findings } = readTexts({
        'light.fault': `${equipment}\nscenario "A case" of ${tree} { ${lines} }\n`,
    });
    if (findings[0]) throw new Error(`The text of the test is wrong: ${findings[0].message}`);
    const [scenario] = model.files.get('light.fault')?.scenarios ?? [];
    const result = scenario && playScenario(scenario, model, { aborted: false });
    if (!result) throw new Error('Nobody asked for the scenario to stop, and still it did.');
    return result;
}

/** Where the shown run ends, and how long the longest takes, in minutes. */
function shown({ shown: run, longest, outcome }: ScenarioResult): string {
    const ending = run?.run.ending;
    const end = ending?.sort === 'end' ? run?.route.ends[ending.end]?.written.name.text : ending?.sort;
    return `${outcome}: ${end ?? 'nothing'} in ${longest / 60_000} min`;
}

describe('a scenario', () => {
    test('passes where its case comes to its end', () => {
        const result = play('build solar, red  fault panel.dirty  expect no-power');
        expect(shown(result)).toBe('passed: no-power in 6 min');
        expect(result.within).toBeUndefined();
    });

    test('of a healthy unit passes where that ends at its referral', () => {
        expect(shown(play('build cell, red  fault healthy  expect no-fault within 3 min'))).toBe(
            'passed: no-fault in 3 min',
        );
    });

    test('may name an effect beside its cause', () => {
        expect(shown(play('build solar, red  fault panel.dirty, guard.tripped  expect no-power'))).toBe(
            'passed: no-power in 6 min',
        );
    });

    test('fails where no unit is built so', () => {
        expect(play('build solar, green  fault panel.dirty  expect no-power').outcome).toBe('no such unit');
    });

    test('fails where the unit lacks the fault', () => {
        expect(play('build solar, red  fault battery.flat  expect no-power').outcome).toBe('no such unit');
    });

    test('fails where its case does not bring the complaint', () => {
        expect(play('build solar, red  fault hood.cracked  expect no-fault').outcome).toBe('not in scope');
        expect(play('build solar, red  fault guard.tripped  expect no-power').outcome).toBe('not in scope');
    });

    test('fails where it ends elsewhere', () => {
        expect(shown(play('build solar, red  fault panel.dirty  expect loose-lead'))).toBe(
            'other end: no-power in 6 min',
        );
        expect(shown(play('build solar, red  fault healthy  expect loose-lead'))).toBe('other end: no-fault in 2 min');
    });

    test('fails where another tree goes on with its case', () => {
        expect(shown(play('build solar, red  fault hood.cracked  expect no-fault', 'wet'))).toBe(
            'other end: handed over in 1 min',
        );
    });

    test('fails where its longest way takes more time than it allows, and just passes where it takes as much', () => {
        expect(
            shown(play('build cell, red  fault battery.flat  reads flash absent  expect no-power within 7 min')),
        ).toBe('passed: no-power in 7 min');
        expect(
            shown(play('build cell, red  fault battery.flat  reads flash absent  expect no-power within 419 s')),
        ).toBe('too long: no-power in 7 min');
    });

    test('fails where it says no end, no fault, or a step for its end', () => {
        expect(play('build cell, red  fault battery.flat').outcome).toBe('no end');
        expect(play('build cell, red  expect no-power').outcome).toBe('no fault');
        expect(play('build cell, red  fault battery.flat  expect watch').outcome).toBe('not an end');
    });

    test('whose names lead nowhere is not played', () => {
        expect(play('build cell, red  fault battery.falt  expect no-power').outcome).toBe('unknown');
        expect(play('build cell, red  fault battery.flat  expect no-powr').outcome).toBe('unknown');
        expect(play('build cell, red  fault battery.flat  expect no-power', 'drak').outcome).toBe('unknown');
    });
});

describe('what the model leaves open', () => {
    const flat = 'build cell, red  fault battery.flat';

    test('is played in every way, and fails where one of them ends elsewhere', () => {
        expect(play(`${flat}  expect weak-cell`).outcome).toBe('other end');
        expect(play(`${flat}  expect no-power`).outcome).toBe('other end');
    });

    test('is fixed by what the scenario reads', () => {
        expect(shown(play(`${flat}  reads flash faint  expect weak-cell`))).toBe('passed: weak-cell in 3 min');
        expect(shown(play(`${flat}  reads flash absent  expect no-power`))).toBe('passed: no-power in 7 min');
        expect(shown(play(`${flat}  reads flash absent  expect weak-cell`))).toBe('other end: no-power in 7 min');
    });

    test('cannot be fixed to what no fault of the case shows', () => {
        const result = play('build solar, red  fault panel.dirty  reads flash faint  expect weak-cell');
        expect(result.outcome).toBe('other reading');
        expect(result.unread?.outcome.text).toBe('faint');
        const second = play(
            'build solar, red  fault panel.dirty  reads flash absent  reads pull lights  expect no-power',
        );
        expect(second.unread?.test.owner.text).toBe('pull');
    });

    test('of a fault that comes and goes is played both ways, unless it is read', () => {
        const loose = 'build cell, red  fault lead.loose';
        expect(play(`${loose}  expect loose-lead`).outcome).toBe('other end');
        expect(shown(play(`${loose}  reads flash absent  reads pull lights  expect loose-lead`))).toBe(
            'passed: loose-lead in 7 min',
        );
        expect(shown(play(`${loose}  reads flash normal  expect no-fault`))).toBe('passed: no-fault in 3 min');
    });
});

describe('a build that leaves options open', () => {
    test('is played with each unit that is built so', () => {
        expect(shown(play('fault healthy  expect no-fault'))).toBe('passed: no-fault in 3 min');
        expect(shown(play('build red  fault healthy  expect no-fault within 2 min'))).toBe(
            'too long: no-fault in 3 min',
        );
        expect(play('fault panel.dirty  expect no-power').outcome).toBe('passed');
    });

    test('fails where only one of many units ends elsewhere', () => {
        const options = Array.from({ length: 9 }, (_, number) => `option o${number} { a${number} b${number} }`);
        const last = Array.from({ length: 9 }, (_, number) => `b${number}`).join(' and ');
        const many = light
            .replace('option power', `${options.join('\n  ')}\n  option power`)
            .replace('normal -> no-power', `normal -> loose-lead for ${last}  normal -> no-power`);
        const result = play('build solar  fault panel.dirty  expect no-power', 'dark', many);
        expect(shown(result)).toBe('other end: loose-lead in 6 min');
        expect(result.shown?.world.build.size).toBe(11);
    });
});

test('all scenarios are listed in the order of files and places, what cannot be read among them', () => {
    const cases = (title: string, end: string) =>
        `uses "light.fault"\nscenario "${title}" of dark { build cell, red  fault healthy  expect ${end} within 5 min }\n`;
    const { model } = readTexts({
        'light.fault': light,
        'b.fault': cases('B', 'no-power'),
        'a.fault': cases('A', 'no-fault'),
    });
    const played = playScenariosOf(['b.fault', 'a.fault'], model, new Set());
    expect(
        played.map(({ scenario, result, end, time, within }) => [scenario.title.value, result, end, time, within]),
    ).toEqual([
        ['A', 'passed', 'no-fault', 180_000, 300_000],
        ['B', 'failed', 'no-fault', 180_000, 300_000],
    ]);
    expect(played[1]?.why).toBe('Scenario `B` ends at `no-fault`, not at `no-power`.');
    expect(played[1]?.counterexample?.sentence).toBe(
        'a unit with cell, red, healthy: step `watch`, `flash` shows `normal`; ends at `no-fault`',
    );
    const unread = playScenariosOf(['a.fault'], model, new Set(['light.fault']));
    expect(unread.map(({ result, why }) => [result, why])).toEqual([
        ['not played', 'Errors stand in its file, its tree or its equipment.'],
    ]);
});
