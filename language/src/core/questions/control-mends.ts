// Ways to bring a hazard under control at the place where it is met, as edits.

import type { Mend } from '../findings/finding.js';
import type { Hazard, Repair } from '../model/equipment.js';
import { timeOf } from '../meaning/resolving.js';
import { quoteName } from '../text/words.js';
import type { HazardPlace } from './hazards.js';
import { insertBefore } from './insert-clause.js';

/** Gates to close and times to wait before a statement, or gates for a repair. Whether they are enough is for the writer to say. */
export function controlMends({ statement, step, repair, gates, waits }: HazardPlace): Mend[] {
    if (repair) return gates.map(gate => underMend(repair, gate));
    if (!statement || !step) return [];
    const before = (title: string, text: string): Mend => ({
        title,
        safety: 'suggestion',
        edits: [insertBefore(statement, step, text)],
    });
    return [
        ...gates.map(gate => before(`Close the gate ${quoteName(gate)} before this`, `gate ${gate}`)),
        ...waits.map(hazard => {
            const { name } = hazard;
            const time = longestOf(hazard);
            return before(`Wait ${time} until ${quoteName(name.text)} is safe`, `wait ${time} until ${name.text} safe`);
        }),
    ];
}

/** The same in words; also where nothing that is declared could help. */
export function controlAdvice({ repair, gates, waits, wasControlled, hazards }: HazardPlace): string {
    const before = repair ? 'in a step before this end' : 'before this';
    const again = wasControlled ? ' again' : '';
    const more = 'do more where the maker or your local code asks for more';
    if (gates.length > 0) {
        const close = repair ? 'Say with `under` which gate the repair needs' : `Close a gate${again} before this`;
        const instead = wasControlled && !repair ? ', or do this before control is given up' : '';
        return `${close}${instead}; ${more}.`;
    }
    if (waits.length === hazards.length) return `Wait${again} until it is safe, ${before}; ${more}.`;
    return `No gate controls it: declare one that does, and close it ${before}.`;
}

function underMend({ file, text, takes, costs, gates }: Repair, gate: string): Mend {
    const end = Math.max(text.end, takes?.end ?? 0, costs?.end ?? 0, ...gates.map(one => one.end));
    return {
        title: `Do this repair under ${quoteName(gate)}`,
        safety: 'suggestion',
        edits: [{ file, start: end, end, text: ` under ${gate}` }],
    };
}

/** The longest time that the hazard takes to go, in any build, as it is written. */
function longestOf({ runDowns }: Hazard): string {
    const [longest] = [...runDowns].sort((one, other) => timeOf(other.amount) - timeOf(one.amount));
    return longest?.amount.written ?? '';
}
