/**
 * What a check is compared with: reads files and parses each with Langium as it comes, and does nothing else.
 * Bundled as the command line is.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createDefaultCoreModule, createDefaultSharedCoreModule, EmptyFileSystem, inject } from 'langium';
import { HalfsplitGeneratedModule, HalfsplitGeneratedSharedModule } from '../../language/src/generated/module.js';

const folder = process.argv[2] ?? '.';
const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), HalfsplitGeneratedSharedModule);
const services = inject(createDefaultCoreModule({ shared }), HalfsplitGeneratedModule);
shared.ServiceRegistry.register(services);

let errors = 0;
for (const file of readdirSync(folder)) {
    const text = readFileSync(join(folder, file), 'utf8');
    const result = services.parser.LangiumParser.parse(text);
    errors += result.parserErrors.length + result.lexerErrors.length;
}
process.exitCode = errors === 0 ? 0 : 1;
