// Measures the rules about readings beside a bare parse of the same files, in one process: prints one line of JSON.
// Use: node readings-work.mjs TESTS FILES

import { createDefaultCoreModule, createDefaultSharedCoreModule, EmptyFileSystem, inject } from 'langium';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { HalfsplitGeneratedModule, HalfsplitGeneratedSharedModule } from '../../language/src/generated/module.js';
import { rules } from '../../language/src/rules/index.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';
import { generateMeasurements } from './invented-measurements.js';

const [tests = 10_000, files = 10] = process.argv.slice(2).map(Number);
const rounds = 5;
const generated = generateMeasurements(tests, files);
const asked = rules.filter(({ group, asks }) => group === 'readings' && asks !== 'walked');

const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), HalfsplitGeneratedSharedModule);
const services = inject(createDefaultCoreModule({ shared }), HalfsplitGeneratedModule);
shared.ServiceRegistry.register(services);

const parses: number[] = [];
const ruled: number[] = [];
let found = 0;
for (let round = 0; round < rounds; round += 1) {
    parses.push(
        timeOf(() => {
            for (const { text } of generated) {
                const { parserErrors, lexerErrors } = services.parser.LangiumParser.parse(text);
                if (parserErrors.length + lexerErrors.length > 0) throw new Error('The generated files have slips.');
            }
        }),
    );
    // Each round has a model of its own: what rules remember of a model is part of their cost.
    const { model, findings } = readWorkspace(
        generated.map(({ path, text }) => ({ file: path, text })),
        { presence: () => 'present' },
    );
    for (const file of model.files.keys()) model.problems(file);
    if (findings.length > 0) throw new Error(`The generated files have findings: ${findings[0]?.message ?? ''}`);
    ruled.push(
        timeOf(() => {
            const verdict = verify(model, [], { rules: asked, settings: defaultSettings, signal: { aborted: false } });
            found = verdict?.findings.length ?? 0;
        }),
    );
}
console.log(JSON.stringify({ parse: medianOf(parses), rules: medianOf(ruled), found, asked: asked.length }));

function timeOf(work: () => void): number {
    const started = performance.now();
    work();
    return performance.now() - started;
}

/** Without the first round, in which nothing is compiled yet. */
function medianOf(numbers: readonly number[]): number {
    const later = [...numbers.slice(1)].sort((one, other) => one - other);
    return later[later.length >> 1] ?? 0;
}
