// A reading that can hurt, in a place where nothing is said to.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import { defineRule } from '../../core/findings/rule.js';
import { bandText } from '../../core/model/band-words.js';
import type { Span } from '../../core/model/written.js';
import { type UndeclaredHazard, undeclaredHazards } from '../../core/questions/undeclared-hazards.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'undeclared-hazard',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'fast',
    messages: {
        zone: 'Test {test} reads {band}, above {limit}, and {zones} no {energy} hazard.',
        nowhere: 'Test {test} reads {band}, above {limit}, in no zone that exposes {hazard}.',
        none: 'Test {test} reads {band}, above {limit}, and the equipment has no {energy} hazard.',
    },
    check(model, file, report, _signal, settings) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const found of undeclaredHazards(equipment, model, settings.safetyLimits)) {
                const { measured, band, energy, limit, zones, build } = found;
                const place = measured.part ?? spanOf(band);
                const values = {
                    test: quoteName(measured.test.name),
                    band: bandText(band),
                    limit: settings.safetyLimits.values[limit],
                    energy: words[energy],
                    hazard: `${article[energy]} ${words[energy]} hazard`,
                    zones: zonesText(zones),
                };
                const example = exampleOfBuild(build, `\`${measured.test.name}\` can read ${bandText(band)}`);
                const message = zones.length > 0 ? 'zone' : energy === 'electrical' ? 'nowhere' : 'none';
                report(message, place, values, {
                    ...(example ? { counterexample: example } : {}),
                    related: measured.part
                        ? [{ ...spanOf(band), text: `\`${found.outcome.name.text}\` is said here` }]
                        : [],
                    advice: adviceFor(found),
                });
            }
        }
    },
});

const words = { electrical: 'electrical', thermal: 'thermal', pressure: 'pressure' } as const;
const article = { electrical: 'an', thermal: 'a', pressure: 'a' } as const;

function zonesText(zones: readonly string[]): string {
    const names = [...new Set(zones)].map(quoteName);
    return names.length === 1 ? `zone ${names.join('')} exposes` : `zones ${listOf(names, 'and')} expose`;
}

function adviceFor({ zones, energy }: UndeclaredHazard): string {
    const [zone] = zones;
    if (zone !== undefined) return `Declare the hazard, and let the zone say that it \`exposes\` it.`;
    if (energy === 'electrical') return 'Say with `in` the zone where it is measured; the zone `exposes` the hazard.';
    return 'Declare the hazard, and the zone that exposes it.';
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
