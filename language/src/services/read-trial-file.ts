// Reads a text that is tried out: with the server's own parser, and without putting anything in place.

import type { LangiumParser } from 'langium';
import type { File } from '../generated/ast.js';
import { lowerFile } from '../lower/lower-file.js';
import type { FaultParseResult } from '../lower/parse/fault-parser.js';
import type { ReadFile } from './rename-trial.js';

/** Makes the function that reads such texts. */
export function makeReadFile(parser: LangiumParser): ReadFile {
    return (file, text) => {
        const { value, findings } = parser.parse<File>(text) as FaultParseResult<File>;
        const { model, nodes } = lowerFile(value, file, { nodes: true });
        return { model, declarations: [...(nodes?.keys() ?? [])], slips: findings.length };
    };
}
