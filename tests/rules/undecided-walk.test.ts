/** Where diagrams are too large formulas are used; where these are too many the writer is told so, and nothing that may be false. */
import { describe, expect, test } from 'vitest';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { equipmentWalks } from '../../language/src/core/questions/walks.js';
import { usualBudget, type WalkBudget } from '../../language/src/core/walk/space.js';
import { walkEquipment } from '../../language/src/core/walk/walks.js';
import { rules } from '../../language/src/rules/index.js';
import { readTexts } from '../support/read-texts.js';

const signal = { aborted: false };

/** A pulley block in sixteen builds; which parts it has hangs on them in tangled ways. */
const text = `equipment pulley-block "Pulley block" {
  option hook "Hook" { plain "Plain"  swivel "Swivel" }
  option rope "Rope" { hemp "Hemp"  wire "Wire" }
  option wheel "Wheel" { brass "Brass"  wood "Wood" }
  option frame "Frame" { open "Open"  shut "Shut" }
  condition rope-end "Rope end" { free tied }
  part pin "Pin" {
    replace "Fit a new pin." takes 20 min
    fault bent "Bent" rate 3 per 1e6 h
  }
  part bearing "Bearing of the hook" for swivel and wire or brass and open {
    replace "Fit a new bearing." takes 20 min
    fault dry "Dry" rate 9 per 1e6 h
  }
  part sheave "Sheave" for hemp and wood or plain and shut {
    replace "Fit a new sheave." takes 20 min
    fault worn "Worn" rate 6 per 1e6 h
  }
  test lift "Does the block lift the load?" {
    checks pin.bent as stuck, bearing.dry as heavy, sheave.worn as heavy
    observe by hand
    takes 2 min
    needs rope-end tied
    normal "it lifts it"
    heavy "it runs heavily"
    stuck "it is stuck"
  }
}

tree no-lift "The block does not lift" of pulley-block {
  complaint lift heavy, stuck
  step pull "Pull the rope" {
    do "Tie the rope to the load." sets rope-end tied
    test lift { normal -> no-fault  stuck -> bent-pin  heavy -> dry-bearing for swivel  heavy -> worn-sheave for plain }
  }
  conclude bent-pin "The pin is bent" { pin.bent }
  conclude dry-bearing "The bearing is dry" for swivel { bearing.dry }
  conclude worn-sheave "The sheave is worn" for plain { sheave.worn }
  refer no-fault "No fault found" because "the block lifts the load"
}

scenario "The pin is bent" of no-lift { build plain, hemp  fault pin.bent  expect bent-pin within 5 min }
`;

/** What the rules say when the walks have this budget, each finding as one line; and how the walks were held. */
function verifyWithin(budget: Partial<WalkBudget>, source = text) {
    const { model, findings } = readTexts({ 'example.fault': source });
    const equipment = [...model.files.values()].flatMap(file => file.equipment)[0];
    if (!equipment) throw new Error('The text has no equipment.');
    // Whoever asks first says how large the walks may grow.
    const walks = equipmentWalks(equipment, model, signal, { ...usualBudget, ...budget });
    const verdict = verify(model, findings, { rules, settings: defaultSettings, signal });
    const found = (verdict?.findings ?? []).map(
        ({ code, start, end, message }) => `${code} at ${source.slice(start, end)}: ${message}`,
    );
    return { found, heldAs: walks?.heldAs, nodes: walks?.around.space.sets.nodeCount ?? 0 };
}

const undecided =
    'undecided-walk at no-lift: Tree `no-lift` could not be verified: its builds and states differ in too many ways.';
const unfinished =
    'undecided-walk at no-lift: Not all of what is in this file could be verified: its builds and states differ in too many ways.';

const isUndecided = (line: string) => line.startsWith('undecided-walk');

/** So few nodes that no diagram of a set can be made. */
const noDiagrams = { nodes: 2 };

/** So few formulas that a walk can begin and not end. */
const fewFormulas = 9;

describe('a tree whose worlds are too many for diagrams', () => {
    const whole = verifyWithin({});

    test('is verified with formulas, and the same is found, whatever the diagrams may take', () => {
        expect(whole.heldAs).toBe('diagrams');
        expect(whole.found.some(line => line.startsWith('too-strong at dry-bearing'))).toBe(true);
        expect(whole.found.filter(isUndecided)).toEqual([]);
        const budgets = Array.from({ length: whole.nodes }, (_, nodes) => nodes + 1);
        const results = budgets.map(nodes => verifyWithin({ nodes }));
        for (const { found } of results) expect(found).toEqual(whole.found);
        expect(new Set(results.map(({ heldAs }) => heldAs))).toEqual(new Set(['diagrams', 'formulas']));
    });
});

describe('a tree whose worlds are too many for formulas too', () => {
    const whole = verifyWithin(noDiagrams);

    test('is told at its name, once', () => {
        expect(verifyWithin({ ...noDiagrams, formulas: fewFormulas }).found).toEqual([undecided]);
    });

    test('is never verified by half, whatever the budget', () => {
        const budgets = Array.from({ length: whole.nodes - fewFormulas }, (_, more) => fewFormulas + more);
        const results = budgets.map(formulas => verifyWithin({ ...noDiagrams, formulas }).found);
        for (const found of results) {
            const others = found.filter(line => !isUndecided(line));
            if (others.length === found.length) expect(found).toEqual(whole.found);
            else expect(found.filter(isUndecided)).toHaveLength(1);
            expect(others.filter(line => !whole.found.includes(line))).toEqual([]);
        }
        // Either the walk itself is too large, or what the rules ask of it afterwards.
        expect(new Set(results.flatMap(found => found.filter(isUndecided)))).toEqual(new Set([undecided, unfinished]));
    });
});

/** Nobody comes to step `fourth`, and that takes more than a look: each two of the guards on the way can hold together. */
const tangled = `equipment hoist "Hoist" {
  option hook "Hook" { plain swivel }
  option rope "Rope" { hemp wire }
  option wheel "Wheel" { brass wood }
  supply spur "Supply"
  flow power: spur -> [lamp]
  test lamp "Is the lamp on?" {
    observe by eye
    normal yes
    absent no shows stopped
  }
}

tree new-hoist "The hoist is new" of hoist {
  complaint lamp absent mistaken 100 %
  step first {
    go second for plain or hemp
    go done
  }
  step second {
    go third for swivel or brass
    go done
  }
  step third {
    go fourth for (wire or brass) and wood
    go done
  }
  step fourth { go done }
  refer done "Hand it over" because "all is set"
}
`;

describe('where proofs are given up', () => {
    test('the steps are named at which it stays open who comes to them, and nothing else is said of them', () => {
        const decided = verifyWithin(noDiagrams, tangled);
        expect(decided.found).toEqual(['unreachable-step at fourth: No unit comes to step `fourth`.']);
        const { found } = verifyWithin({ ...noDiagrams, proofSteps: -1 }, tangled);
        expect(found).toEqual([
            'undecided-walk at new-hoist: It could not be decided who comes to step `third` of tree `new-hoist`, or how it goes on from there.',
        ]);
    });
});

test('what earlier walks have left behind is thrown away before the budget is used up', () => {
    const { model } = readTexts({ 'example.fault': text });
    const equipment = [...model.files.values()].flatMap(file => file.equipment)[0];
    if (!equipment) throw new Error('The text has no equipment.');
    const setsWithin = (budget: WalkBudget) => walkEquipment(equipment, model, signal, budget)?.around.space.sets;
    const nodes = setsWithin(usualBudget)?.nodeCount ?? 0;
    const [large, small] = [3, 1.5].map(times => ({ ...usualBudget, nodes: times * nodes }));
    if (!large || !small) throw new Error('There are two budgets.');
    expect(setsWithin(large)).toBe(setsWithin(large));
    const before = setsWithin(small);
    const after = setsWithin(small);
    // Comparing them by what is in them would take long, so only whether they are the same is asked.
    expect(before === after).toBe(false);
});
