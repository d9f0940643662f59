// Questions that were asked before on every way, with nothing done since that could change their answers.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Follow } from '../model/trees.js';
import type { Route, Station } from '../meaning/route.js';
import { freshAnswers, knownAtQuestion } from '../walk/fresh-answers.js';
import { type AskedIn, passagesOf } from './passages.js';
import { walksConcerning } from './walks.js';

interface Signal {
    readonly aborted: boolean;
}

/** Whether all who come to a question were asked it before. */
export function isRepeated({ walked: { walk, route, all }, station, action }: AskedIn): boolean {
    const placed = route.stations[station];
    const fresh = freshAnswers(walk)[station];
    if (!placed || !fresh) return false;
    // Asking again is how a fault that comes and goes is caught.
    const comesAndGoes = [...(walk.stations[station]?.keys() ?? [])].some(number =>
        walk.around.presences.at(number).present.some(fault => (all.unit.faults[fault]?.intermittent.length ?? 0) > 0),
    );
    return !comesAndGoes && (knownAtQuestion(placed, fresh, walk).get(placed.actions.indexOf(action)) ?? false);
}

/** The procedures that are followed in a file although all that they ask there is repeated, in the order of the text. */
export function repeatedFollows(file: FileModel, model: Model, signal: Signal): Follow[] {
    const asked = new Map<Follow, boolean>();
    for (const all of walksConcerning(file, model, signal)) {
        for (const question of passagesOf(all).questions) {
            // What is repeated wherever the procedure is followed is told in the procedure.
            const isTold = question.asked.every(isRepeated);
            for (const one of question.asked) {
                const { route } = one.walked;
                for (const follow of followsAround(route.stations[one.station], route)) {
                    if (follow.file !== file.file) continue;
                    asked.set(follow, (asked.get(follow) ?? true) && !isTold && isRepeated(one));
                }
            }
        }
    }
    return [...asked]
        .filter(([, isIdle]) => isIdle)
        .map(([follow]) => follow)
        .sort((one, other) => one.start - other.start);
}

/** The statements that follow the procedures in which a station stands, the outermost first. */
function followsAround(station: Station | undefined, { stations }: Route): Follow[] {
    return (station?.calls ?? []).flatMap((call, depth) => {
        // The stations of a procedure stand behind those of another one that the same step follows before it.
        const inside = station?.calls[depth + 1] ?? station?.number ?? 0;
        const written = stations[call]?.actions.flatMap(action =>
            action.sort === 'follow' && action.to.sort === 'station' && action.to.station <= inside
                ? [action.written]
                : [],
        );
        return written?.slice(-1) ?? [];
    });
}
