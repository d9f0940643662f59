// Something that a unit is led to and its build does not have.

import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { type Lack, lackingIn } from '../../core/questions/lacking.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'missing-in-build',
    since: '0.1.0',
    severity: 'error',
    group: 'builds',
    cost: 'slow',
    asks: 'walked',
    messages: {
        led: 'The {noun} {what} is not for every unit that is led to it here.',
        first: 'The {noun} {what} comes first, and is not for every unit that begins with it.',
        used: 'Not every unit that comes to this step {has} {what}.',
        named: 'Not every unit that comes to {end} {has} {what}, which it names.',
    },
    check(model, file, report, signal) {
        for (const { sort, place, noun, what, end, example, goal, walked } of lackingIn(model, file, signal)) {
            const isPath = sort === 'led' || sort === 'first';
            const lack = isPath
                ? `the ${noun} ${quoteName(what)} is not for this unit`
                : `this unit has no ${quoteName(what)}`;
            const counterexample = counterexampleOf(example, goal, walked, lack);
            const has = noun === 'fault' ? 'can have' : `has the ${noun}`;
            report(
                sort,
                place,
                { noun, has, what: quoteName(what), end: quoteName(end ?? '') },
                {
                    ...(counterexample ? { counterexample } : {}),
                    advice: adviceFor[sort],
                },
            );
        }
    },
});

const adviceFor: Readonly<Record<Lack['sort'], string>> = {
    led: 'Say with `for` which units go this way and lead the others elsewhere, or take the `for` away from what it leads to.',
    first: 'Begin with a step for all units, and part them there with `go … for`.',
    used: 'Say with `for` which units this is for, or lead the others elsewhere before.',
    named: 'Say with `for` in which units it names this, or lead the others elsewhere before.',
};
