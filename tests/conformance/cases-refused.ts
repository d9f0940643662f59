/** Cases: documents that are not walked, and one of a later version. */
import { lightAsked, listCases, plain } from './case-parts.js';

const { cases, add } = listCases();

const refused: readonly (readonly [string, string, (document: Record<string, unknown>) => unknown])[] = [
    ['version-2', 'A document of another major version.', document => ({ ...document, formatVersion: '2.0' })],
    ['other-format', 'Something else.', document => ({ ...document, format: 'list' })],
    [
        'branch-nowhere',
        'A branch that leads nowhere.',
        document => JSON.parse(JSON.stringify(document).replace('"to":"fine"', '"to":"away"')) as unknown,
    ],
    [
        'unknown-outcome',
        'A branch for an outcome that the test does not have.',
        document =>
            JSON.parse(
                JSON.stringify(document).replace('"outcomes":["normal"],"to"', '"outcomes":["odd"],"to"'),
            ) as unknown,
    ],
];
for (const [name, about, change] of refused) add(`refused-${name}`, about, plain, 'no document', [], { change });
add(
    'later-version',
    'A document of version 1.9 with properties that are not known is walked.',
    plain,
    lightAsked,
    [['normal', 'refer fine']],
    {
        change: document => ({ ...document, formatVersion: '1.9', novelty: { deep: [1, 2] } }),
    },
);

export const refusedCases = cases;
