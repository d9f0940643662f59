/** The one layout of our sources: four spaces, single quotes, 120 columns. */

/** @type {import('prettier').Config} */
export default {
    tabWidth: 4,
    singleQuote: true,
    printWidth: 120,
    trailingComma: 'all',
    arrowParens: 'avoid',
    proseWrap: 'preserve',
    overrides: [{ files: ['*.yml', '*.yaml'], options: { tabWidth: 2 } }],
};
