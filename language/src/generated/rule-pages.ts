/** The page of every rule as text, by the code of the rule. Written by `npm run generate`: do not edit. */
export const rulePages: Readonly<Record<string, string>> = {
    'branch-missing': [
    ].join('\n'),
    'branch-twice': [
    ].join('\n'),
    'unknown-name': [
    ].join('\n'),
};
