// What the linker says of a reference that it cannot resolve.

import type { Declaration } from '../model/file.js';
import type { FileId, Reference } from '../model/written.js';

export type LinkProblem =
    | {
          readonly sort: 'unknown';
          readonly reference: Reference;
          /** What was looked for, in the writer's words: `part`, `step or end`. */
          readonly wanted: string;
          /** Where it was looked for, in the writer's words; empty where that goes without saying. */
          readonly within: string;
          /** Names like it that do exist, nearest first, at most three. */
          readonly near: readonly string[];
          /** Files that declare the name but are not used by this file. */
          readonly elsewhere: readonly FileId[];
          /** Where the name exists but stands for something else, such as a zone where a part is needed. */
          readonly instead: Declaration | undefined;
      }
    | {
          readonly sort: 'ambiguous';
          readonly reference: Reference;
          readonly wanted: string;
          readonly candidates: readonly Declaration[];
      };
