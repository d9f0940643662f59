/** Guards that are kept once are what looking each of them up by itself gives. */
import { expect, test } from 'vitest';
import { resolveChoices } from '../../../language/src/core/builds/evaluate.js';
import { KnownGuards } from '../../../language/src/core/builds/known-guards.js';
import type { Choice, Option } from '../../../language/src/core/model/equipment.js';
import type { ChoiceExpression } from '../../../language/src/core/model/guards.js';
import type { Model } from '../../../language/src/core/model/model.js';
import { readTexts } from '../../support/read-texts.js';

const guards = ['a', 'b', 'a and b', 'b and a', 'a or b', 'not a', 'not (a and b)', 'a and (b or not c)', 'a and b'];

test('gives the same object for the same guard, and the same content as a look-up by itself', () => {
    const text = [
        'equipment box "Box" {',
        '  option first { a b }',
        '  option second { c d }',
        ...guards.map((guard, index) => `  part p${index} "Part" for ${guard} { }`),
        '}',
    ].join('\n');
    const { model } = readTexts({ 'box.fault': text }) as { readonly model: Model };
    const equipment = [...model.files.values()].flatMap(file => file.equipment)[0];
    const written = (equipment?.parts ?? []).map(({ guard }) => guard as ChoiceExpression);
    expect(written).toHaveLength(guards.length);
    const optionOf = (choice: Choice): Option | undefined =>
        equipment?.options.find(option => option.choices.includes(choice));
    const target = (reference: Parameters<Model['target']>[0]) => model.target(reference);
    const known = new KnownGuards(optionOf);
    const found = written.map(guard => known.resolve(guard, target));
    expect(found).toEqual(written.map(guard => resolveChoices(guard, target, optionOf)));
    expect(found.every(one => one !== undefined)).toBe(true);
    expect(found.at(-1)).toBe(found[2]);
    expect(new Set(found).size).toBe(guards.length - 1);
});
