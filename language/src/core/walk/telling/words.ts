// Small things that all of telling a position shares: titles, the builds something is for, safety statements and notes.

import type { Fault, MeasurementCategory } from '../../model/equipment.js';
import { guardText } from '../../model/guard-words.js';
import type { ChoiceExpression } from '../../model/guards.js';
import type { Model } from '../../model/model.js';
import type { Declared, Note, Picture, Pointer, SafetyStatement } from '../../model/remarks.js';
import type { Amount, Prose, Reference } from '../../model/written.js';
import { faultsOf } from '../../meaning/resolve-parts.js';
import type { InBuilds, UnitFault, UnitTest } from '../../meaning/unit.js';
import { conditionOf } from '../../questions/answers.js';
import { signalWords } from '../../questions/caution-words.js';
import type { EquipmentWalks } from '../walks.js';
import type { Crowd } from '../changes.js';
import { buildsWhere, isPossible } from '../space.js';
import type { ToldLine, ToldName, ToldSafety } from './told.js';

/** What telling needs: the model for titles, the unit, and whose builds count. */
export interface Telling {
    readonly model: Model;
    readonly all: EquipmentWalks;
    readonly crowds: readonly Crowd[];
}

/** The name and title of a declaration. */
export function nameOf({ name, title }: Pick<Declared, 'name' | 'title'>): ToldName {
    return { name: name.text, title: titleWords(title) };
}

function titleWords(title: Prose | undefined): string {
    return title?.value.trim() ?? '';
}

/** The title of what a reference leads to, else its name. */
export function titleOf(reference: Reference, model: Model): string {
    const target = model.target(reference);
    const title = target && 'title' in target ? titleWords(target.title) : '';
    return title === '' ? reference.text : title;
}

/** A fault with the title of its part before its own, or what a healthy unit is called. */
export function faultName(fault: UnitFault | undefined, { all, model }: Pick<Telling, 'all' | 'model'>): ToldName {
    if (!fault) return { name: 'healthy', title: 'Nothing is wrong with the unit' };
    const part = all.unit.parts[fault.part];
    if (!part) return { name: fault.name, title: titleWords(fault.declaration.title) };
    const declared = faultsOf(part.declaration, model).get(fault.declaration.name.text);
    const titles = [declared?.own, declared?.ofKind].map((one: Fault | undefined) => titleWords(one?.title));
    const own = titles.find(title => title !== '') ?? fault.declaration.name.text;
    const whole = titleWords(part.declaration.title);
    return { name: fault.name, title: `${whole === '' ? part.name : whole}: ${own}` };
}

/** A test with the title of its part before its own where the test is one of a kind. */
export function testName(test: UnitTest, { all }: Pick<Telling, 'all'>): ToldName {
    const title = titleWords(test.declaration.title);
    const part = test.name === test.declaration.name.text ? undefined : all.unit.parts[test.part ?? -1];
    const whole = part ? titleWords(part.declaration.title) : '';
    return { name: test.name, title: whole === '' ? title : `${whole}: ${title}` };
}

/** Whether something with this guard is there in any of the builds, and if not in all, in which. */
export function whereFor(
    guard: ChoiceExpression | undefined,
    telling: Telling,
): { readonly isThere: boolean; readonly only: string | undefined } {
    if (!guard) return { isThere: true, only: undefined };
    const condition = conditionOf(guard, telling.model, telling.all.unit.equipment);
    const isThere = isIn(condition, telling);
    const isEverywhere = isThere && !isIn(condition && { sort: 'not', operand: condition }, telling);
    return { isThere, only: isThere && !isEverywhere ? guardText(guard) : undefined };
}

/** Whether some of the builds have something. */
export function isIn(guard: InBuilds, { crowds, all }: Telling): boolean {
    const { space } = all.around;
    const builds = buildsWhere(guard, space);
    return crowds.some(({ set }) => isPossible(space.sets.and(set, builds), space));
}

/** One line, where some of the builds have it. */
export function lineFor(
    sort: string,
    text: string,
    guard: ChoiceExpression | undefined,
    telling: Telling,
    name?: string,
): readonly ToldLine[] {
    const { isThere, only } = whereFor(guard, telling);
    return isThere ? [{ sort, name, text, only }] : [];
}

/** Notes, pictures and pointers to other documents. */
export function remarkLines(remarks: readonly (Note | Picture | Pointer)[], telling: Telling): readonly ToldLine[] {
    return remarks.flatMap(remark => {
        switch (remark.sort) {
            case 'note':
                return lineFor('note', remark.text.value, remark.guard, telling);
            case 'picture': {
                const words = remark.alternative
                    ? `${remark.alternative.value} (${remark.path.value})`
                    : remark.path.value;
                return lineFor('picture', words, remark.guard, telling);
            }
            case 'see': {
                const words = remark.link ? `${remark.text.value} (${remark.link.value})` : remark.text.value;
                return lineFor('see', words, remark.guard, telling);
            }
        }
    });
}

/** Safety statements, each once, the gravest first. */
export function safetyWords(statements: readonly SafetyStatement[], telling: Telling): readonly ToldSafety[] {
    const { model } = telling;
    return [...new Set(statements)]
        .sort((one, other) => signalWords.indexOf(one.level) - signalWords.indexOf(other.level))
        .flatMap(({ level, hazard, text, guard }) => {
            const { isThere, only } = whereFor(guard, telling);
            const about = hazard && titleOf(hazard, model);
            return isThere ? [{ level, about, text: text.value, only }] : [];
        });
}

/** What instruments must be rated for (IEC 61010): `category III 300 V`. */
export function categoryLines(categories: readonly MeasurementCategory[], telling: Telling): readonly ToldLine[] {
    return categories.flatMap(({ category, voltage, guard }) =>
        lineFor('instruments', `category ${category.text}${voltage ? ` ${voltage.written}` : ''}`, guard, telling),
    );
}

/** A text with an amount behind it. */
export function withAmount(text: string, amount: Amount | undefined): string {
    return amount ? `${text} (${amount.written})` : text;
}
