// Tells what is asked at a position, and each answer that may be given to it: what is read or said, and where it leads.

import { bandText } from '../../model/band-words.js';
import type { Outcome } from '../../model/tests.js';
import { listOf } from '../../text/words.js';
import type { UnitTest } from '../../meaning/unit.js';
import type { Answer, Next, Position } from '../go-through.js';
import type { Leaving } from '../pass-station.js';
import { isPossible } from '../space.js';
import { whereIs } from './tell-visit.js';
import {
    categoryLines,
    isIn,
    lineFor,
    nameOf,
    remarkLines,
    type Telling,
    testName,
    titleOf,
    whereFor,
} from './words.js';
import type { ToldAnswer, ToldLine, ToldNext, ToldPlace, ToldReading, ToldTest } from './told.js';

/** A test with its answers. */
export function tellTest(
    { action, test, crowds, answers }: Extract<Next, { sort: 'test' }>,
    position: Position,
    telling: Telling,
): ToldTest {
    const asked: Telling = { ...telling, crowds };
    return {
        sort: 'test',
        ...testName(test, telling),
        confirms: action.confirms,
        lines: testLines(test, asked),
        answers: answers.map(answer => tellAnswer(answer, readingsOf(answer, test, asked), position)),
    };
}

/** Whether something can be done. */
export function tellDoing(
    { answers }: Extract<Next, { sort: 'doing' }>,
    position: Position,
): Extract<ToldNext, { sort: 'doing' }> {
    return { sort: 'doing', answers: answers.map(answer => tellAnswer(answer, doingWords(answer), position)) };
}

/** Which choice of an option the unit has. */
export function tellBuild(
    { station, answers }: Extract<Next, { sort: 'build' }>,
    position: Position,
): Extract<ToldNext, { sort: 'build' }> {
    const [first] = answers;
    const option = first?.sort === 'choice' ? nameOf(first.made.option) : { name: '', title: '' };
    const told = answers.map(answer => tellAnswer(answer, choiceWords(answer), position));
    return { sort: 'build', option, step: station && nameOf(station.step), answers: told };
}

function tellAnswer(answer: Answer, readings: readonly ToldReading[], position: Position): ToldAnswer {
    const { name, isShown, leavings } = answer;
    return { name, readings, isShown, leadsTo: leavings.map(leaving => tellPlace(leaving.to, position)) };
}

/** Where somebody comes to. */
export function tellPlace(to: Leaving['to'], { route }: Pick<Position, 'route'>): ToldPlace {
    const nowhere: ToldPlace = { sort: 'nowhere', name: '', title: '' };
    switch (to.sort) {
        case 'station': {
            const station = route.stations[to.station];
            return station ? { sort: 'step', ...nameOf(station.step) } : nowhere;
        }
        case 'end': {
            const end = route.ends[to.end];
            return end ? { sort: end.written.sort, ...nameOf(end.written) } : nowhere;
        }
        case 'tree':
            return { sort: 'tree', ...nameOf(to.tree) };
        case 'nowhere':
            return nowhere;
    }
}

/** Where the test is done and with what, and what is said beside it. */
function testLines({ declaration, part, zones, measures }: UnitTest, telling: Telling): readonly ToldLine[] {
    const at = telling.all.unit.parts[part ?? -1];
    const instruments = declaration.methods.flatMap(method =>
        method.sort === 'measure' && method.instrument
            ? lineFor('with', titleOf(method.instrument, telling.model), method.guard, telling)
            : [],
    );
    const { during } = declaration;
    // A test is told in its zones, so what they ask of instruments is told with it.
    const categories = (measures ? zones : [])
        .filter(({ guard }) => isIn(guard, telling))
        .flatMap(({ zone }) => telling.all.unit.zones[zone]?.declaration.categories ?? []);
    return [
        ...(at ? whereIs(at, telling) : []),
        ...declaration.locations.flatMap(({ text, guard }) => lineFor('where', text.value, guard, telling)),
        ...instruments,
        ...categoryLines([...new Set(categories)], telling),
        ...(during ? lineFor('during', during.text.value, undefined, telling) : []),
        ...remarkLines(declaration.remarks, telling),
    ];
}

/** The bands or the words of an outcome, as written; those that hold in the state that the unit is in. */
function readingsOf(answer: Answer, test: UnitTest, telling: Telling): readonly ToldReading[] {
    if (answer.sort === 'cannot be done') return doingWords(answer);
    if (answer.sort !== 'outcome') return [];
    const { identifies } = test;
    if (identifies) {
        const title = identifies.choices[answer.outcome]?.title?.value;
        return title === undefined ? [] : [{ text: title, only: undefined }];
    }
    const entries = test.declaration.outcomes
        .map((written, index) => ({ written, entry: test.entries[index] }))
        .filter(({ entry }) => entry?.outcome === answer.outcome);
    const holding = entries.filter(({ entry }) => entry && mayHold(entry, telling));
    // Where no entry holds in this state, as when something has still to be switched on, all are told.
    return (holding.length > 0 ? holding : entries).flatMap(({ written }) => readingWords(written, telling));
}

function mayHold({ when }: UnitTest['entries'][number], { all, crowds }: Telling): boolean {
    if (!when) return true;
    const { space, flows } = all.around;
    return crowds.some(({ presence, set }) =>
        isPossible(space.sets.and(set, flows.where(when, presence.present)), space),
    );
}

function readingWords({ answer, bands, guard }: Outcome, telling: Telling): readonly ToldReading[] {
    const { isThere, only } = whereFor(guard, telling);
    const text = answer ? answer.value : listOf(bands.map(bandText), 'or');
    return isThere && text !== '' ? [{ text, only }] : [];
}

function doingWords(answer: Answer): readonly ToldReading[] {
    return answer.sort === 'cannot be done' ? [{ text: answer.action.written.text.value, only: undefined }] : [];
}

function choiceWords(answer: Answer): readonly ToldReading[] {
    const title = answer.sort === 'choice' ? answer.made.choice?.title?.value : undefined;
    return title === undefined ? [] : [{ text: title, only: undefined }];
}
