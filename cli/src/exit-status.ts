// What the program's exit status means.

/** Nothing was found at or above the severity that fails. */
export const nothingFound = 0;

/** Findings, or files that would change. */
export const somethingFound = 1;

/** The program was used in a way that it does not understand, or could not open its input or write its output. */
export const wrongUse = 2;
