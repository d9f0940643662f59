// Severity and shape for findings that reading and parsing make before there is a model.

import type { FileId } from '../model/written.js';
import type { Finding } from './finding.js';
import { quoteName } from '../text/words.js';
import { makeFinding } from './rule.js';

/** A finding of the reader or the parser: a code and a place in one file's text, with edits that mend it. */
export interface TextFinding {
    readonly code: string;
    readonly start: number;
    readonly end: number;
    readonly message: string;
    readonly mend: string | undefined;
    readonly edits: readonly { readonly start: number; readonly end: number; readonly text: string }[];
}

/** As a finding of the file; what cannot be read is always an error. */
export function fromTextFinding(finding: TextFinding, file: FileId): Finding {
    const edits = finding.edits.map(edit => ({ ...edit, file }));
    return makeFinding(
        finding.code,
        'error',
        finding.message,
        { file, start: finding.start, end: finding.end },
        {
            ...(finding.mend === undefined ? {} : { advice: finding.mend }),
            mends:
                edits.length > 0 && finding.mend !== undefined
                    ? [{ title: titleOf(finding.mend, edits), safety: 'suggestion', edits }]
                    : [],
        },
    );
}

/** What the edits do, where one edit does it; else the mend in words. */
function titleOf(mend: string, edits: readonly { readonly text: string }[]): string {
    const [edit, ...others] = edits;
    if (!edit || others.length > 0) return mend;
    return edit.text === '' ? 'Take it out' : `Write ${quoteName(edit.text)}`;
}
