/** What is told of a position: safety before actions, readings of the state that the unit is in, ends with their repairs. */
import { describe, expect, test } from 'vitest';
import { tellPosition } from '../../../language/src/core/walk/telling/tell-position.js';
import type { ToldEnd, ToldPosition, ToldTest } from '../../../language/src/core/walk/telling/told.js';
import { answer, begin } from '../../support/go-through.js';

/** An invented water heater for a tent. */
const heater = `instrument meter "Meter" { measures voltage DC 0 V .. 60 V resolution 0.1 V accuracy 1 % }

kind plug-kind "Plug" {
  warning "Pull the plug by its body, not by its cable."
  replace "Fit a new plug." takes 3 min
  fault loose "Loose" rate 5 per 1e6 h
  test plug-voltage "Voltage at the plug" {
    measure voltage DC with meter
    normal 12 V ± 5 % when switch-is-on
    absent < 1 V shows stopped
  }
}
`;

const tent = `equipment heater "Tent heater" {
  danger "Do not use the heater in a closed tent."
  option fuel "Fuel" { gas "Gas" share 60 %  spirit "Spirit" }
  hazard flame "Open flame" { thermal 900 °C  cools in 5 min  caution "Flames can be invisible in sunlight." }
  hazard battery "Battery" { electrical 12 V DC }
  zone burner-zone "At the burner" {
    exposes flame
    notice "Soot stains."
  }
  condition switch "Switch" { off "OFF" on "ON" }
  condition lid "Lid" { shut "shut" open "open" }
  part plug is plug-kind "Plug of the fan" { fault loose { rate 6 per 1e6 h } }
  part fan "Fan" { location "under the lid"  location "beside the bottle" for gas  repair "Oil the fan." takes 2 min  fault stiff "Stiff" rate 2 per 1e6 h }
  part jet "Jet" in burner-zone { replace "Fit a new jet." takes 5 min costs 4 EUR under cold  fault clogged "Clogged" rate 9 per 1e6 h { repair "Clean the jet." takes 4 min under cold } }
  flow current: plug -> [voltage] -> fan -> [warm]
  test warm "Is the tent warm?" { checks jet.clogged as cold observe by hand normal yes cold no shows stopped }
  test voltage "Voltage at the fan" {
    location "at the red wire"
    measure voltage DC with meter
    needs switch on
    normal 0 V when switch off
    normal 11.5 V .. < 13 V when switch on
    absent < 1 V or otherwise shows stopped
    note "Turn the meter on first."
  }
  test jet-look "Is the jet clear?" in burner-zone { checks jet.clogged as clogged observe by eye normal yes clogged no }
  test fuel-look "What does it burn?" { identify fuel by eye }
  gate cold "Let it cool" {
    controls flame
    warning about flame "Hot metal burns."
    wear "Gloves"
    shut-down "Turn the switch to OFF." sets switch off
    isolate flame "Close the bottle." for gas
    release flame "Wait." 5 min
    prove flame "Hold your hand near it."
    restore "Open the bottle." for gas
  }
}

tree chilly "The tent stays cold" of heater {
  complaint warm cold mistaken 5 %
  still wrong -> look-inside
  step begin "Switch it on" {
    do "Turn the switch to ON." sets switch on
    notice "The fan is loud."
    danger about flame "Burning fuel spreads."
    test voltage { normal -> look-inside  absent -> bad-plug }
  }
  step look-inside "Look at the jet" {
    gate cold
    do "Open the lid." sets lid open in burner-zone
    do "Turn the fan by hand." at fan
    wait 5 min until flame safe "Let the jet cool."
    test jet-look { normal -> bad-fan  clogged -> fuel }
  }
  step fuel "Look at the fuel" {
    restore cold
    test fuel-look { gas -> bad-jet  spirit -> hand-over }
  }
  conclude bad-plug "The plug is loose" { plug.loose  unconfirmed because "The tent warms up slowly." }
  conclude bad-fan "The fan is stiff" in order { fan.stiff, plug.loose  still wrong -> hand-over }
  conclude bad-jet "The jet is clogged" { jet.clogged }
  refer hand-over "Ask the shop" because "the jet is special" {
    jet.clogged for spirit
    repair "Rinse the jet with spirit." takes 1 min
    leaves gate cold closed
    leaves lid open
    note "Take the bottle off." for gas
  }
}
`;

const text = heater.replace(' when switch-is-on', '') + tent;

function told(...answers: readonly string[]): ToldPosition {
    const { model, start } = begin(text);
    return tellPosition(answer(start, ...answers), model);
}

function asTest({ next }: ToldPosition): ToldTest {
    if (next.sort !== 'test') throw new Error(`It is no test, but ${next.sort}.`);
    return next;
}

function asEnd({ next }: ToldPosition): ToldEnd {
    if (next.sort !== 'conclusion' && next.sort !== 'referral') throw new Error(`It is no end, but ${next.sort}.`);
    return next;
}

/** Lines as `sort (only): text`. */
function words(lines: readonly { sort: string; text: string; only: string | undefined }[]): string[] {
    return lines.map(({ sort, text: said, only }) => `${sort}${only === undefined ? '' : ` (${only})`}: ${said}`);
}

describe('a step', () => {
    test('has all that has to be known to stay safe before its actions, the gravest first', () => {
        const [visit] = told().visits;
        expect(visit?.safety.map(({ level, about, text: said }) => [level, about, said])).toEqual([
            ['danger', 'Open flame', 'Burning fuel spreads.'],
            ['notice', undefined, 'The fan is loud.'],
        ]);
        expect(visit?.begins.map(({ sort, name, safety }) => [sort, name, safety.length])).toEqual([
            ['equipment', 'heater', 1],
            ['tree', 'chilly', 0],
        ]);
    });

    test('has what is said of its gates, zones and hazards too, each once', () => {
        const [visit] = told('normal').visits;
        expect(visit?.begins).toEqual([]);
        expect(visit?.safety.map(({ level, text: said }) => `${level}: ${said}`)).toEqual([
            'warning: Hot metal burns.',
            'caution: Flames can be invisible in sunlight.',
            'notice: Soot stains.',
        ]);
    });

    test('tells each action in its order, with where it is done and in which builds', () => {
        expect(words(told('normal').visits[0]?.lines ?? [])).toEqual([
            'gate: Let it cool',
            'controls: under control from here: Open flame',
            'wear: Gloves',
            'shut-down: Turn the switch to OFF.',
            'isolate (gas): Close the bottle.',
            'release: Wait. (5 min)',
            'prove: Hold your hand near it.',
            'do: Open the lid.',
            'where: At the burner',
            'do: Turn the fan by hand.',
            'where: Fan, under the lid',
            'where (gas): Fan, beside the bottle',
            'wait: 5 min, until this is safe: Open flame. Let the jet cool.',
        ]);
        expect(words(told('normal', 'clogged').visits[0]?.lines ?? [])).toEqual([
            'end of gate: Let it cool',
            'gives up: no longer under control: Open flame',
            'restore (gas): Open the bottle.',
        ]);
    });
});

describe('a test', () => {
    test('has the readings of the state that the unit is in, as written', () => {
        const { lines, answers, title } = asTest(told());
        expect(title).toBe('Voltage at the fan');
        expect(words(lines)).toEqual(['where: at the red wire', 'with: Meter', 'note: Turn the meter on first.']);
        expect(answers.map(({ name, readings }) => [name, ...readings.map(({ text: said }) => said)])).toEqual([
            ['normal', '11.5 V .. < 13 V'],
            ['absent', '< 1 V or any other reading'],
        ]);
    });

    test('that asks for the build has the choices with their titles', () => {
        const { answers } = asTest(told('normal', 'clogged'));
        expect(answers.map(({ name, readings, leadsTo }) => [name, readings[0]?.text, leadsTo[0]?.name])).toEqual([
            ['gas', 'Gas', 'bad-jet'],
            ['spirit', 'Spirit', 'hand-over'],
        ]);
    });
});

describe('an end', () => {
    test('of a part of a kind has the repair and the words of the kind', () => {
        const end = asEnd(told('absent'));
        expect(end.faults).toEqual([{ name: 'plug.loose', title: 'Plug of the fan: Loose', isPossible: true }]);
        expect(end.repairs.map(({ action, text: said, takes }) => [action, said, takes])).toEqual([
            ['replace', 'Fit a new plug.', '3 min'],
        ]);
        expect(words(end.lines)).toEqual(['not confirmed: The tent warms up slowly.']);
        expect(end.stillWrong.map(({ sort, name }) => [sort, name])).toEqual([['step', 'look-inside']]);
        expect(end.unnamed).toEqual([]);
    });

    test('tells which of the faults that it names are out, and whom it does not name', () => {
        const end = asEnd(told('normal', 'normal'));
        expect([end.inOrder, end.faults.map(({ name, isPossible }) => [name, isPossible])]).toEqual([
            true,
            [
                ['plug.loose', false],
                ['fan.stiff', true],
            ].reverse(),
        ]);
        expect(end.unnamed).toEqual([{ name: 'healthy', title: 'Nothing is wrong with the unit' }]);
        expect(end.stillWrong.map(({ sort, name }) => [sort, name])).toEqual([['referral', 'hand-over']]);
    });

    test('has the repair of the fault before that of its part, and the safety of its gate', () => {
        const end = asEnd(told('normal', 'clogged', 'gas'));
        expect(end.repairs).toEqual([
            {
                action: 'repair',
                text: 'Clean the jet.',
                takes: '4 min',
                costs: undefined,
                under: ['Let it cool'],
                only: undefined,
            },
        ]);
        expect(end.safety.map(({ text: said }) => said)).toEqual([
            'Hot metal burns.',
            'Flames can be invisible in sunlight.',
            'Soot stains.',
        ]);
    });

    test('that hands over repairs only what it says itself, and tells what may stay as it is', () => {
        const end = asEnd(told('normal', 'clogged', 'spirit'));
        expect([end.sort, end.reason]).toEqual(['referral', 'the jet is special']);
        expect(end.repairs.map(({ text: said }) => said)).toEqual(['Rinse the jet with spirit.']);
        expect(words(end.lines)).toEqual(['may stay: the gate Let it cool closed', 'may stay: Lid open']);
        expect(end.stillWrong).toEqual([]);
    });
});
