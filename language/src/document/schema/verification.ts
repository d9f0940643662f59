// Schemas of what a document tells of its verification: by what, from what, what was let stand, and what the tree finds.

import {
    type Definitions,
    fixed,
    list,
    object,
    oneWordOf,
    optional,
    refer,
    someOf,
    union,
    words,
} from './vocabulary.js';

const digest = {
    type: 'string',
    description: 'SHA-256 of the bytes, in hexadecimal.',
    pattern: '^[0-9a-f]{64}$',
} as const;

const path = words('Relative to the workspace, with `/` between folders.');

/** A time in UTC as RFC 3339 has it, to the second or finer. */
export const timePattern = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,9})?Z$/;

function fraction(description: string) {
    return { type: 'number', description } as const;
}

export const verification: Definitions = {
    Verification: object(
        'What was verified, with what. It tells what was done and found; it is no promise that the tree is right.',
        {
            tool: refer('Tool'),
            time: optional({
                type: 'string',
                description:
                    'When it was exported (RFC 3339, UTC), as the person who exported it said; left out where nobody said. ' +
                    'The program itself looks at no clock, so that the same input gives the same bytes.',
                pattern: timePattern.source,
            }),
            rules: optional(
                someOf(
                    refer('RuleAsked'),
                    'The rules that were asked, by code; none of severity `error` has found anything. Left out where the rules were not asked.',
                ),
            ),
            accepted: list(refer('Accepted'), 'Findings that the author let stand.'),
            coverage: optional(
                refer('Coverage', 'How much the tree finds; left out where the faults were not walked through it.'),
            ),
            sources: list(refer('Source'), 'The source files, by path.'),
            settings: optional(refer('Source', 'The settings file of the workspace; left out where there is none.')),
        },
    ),
    Tool: object('The program that verified and exported the tree.', { name: words(), version: words() }),
    RuleAsked: object('A rule as it was asked.', {
        code: words('The code of its findings.'),
        since: words('The version of the program that first had the rule.'),
        severity: oneWordOf(
            ['error', 'warning', 'information', 'off'],
            'How much its findings weigh in this workspace; those of a rule that is `off` do not count.',
        ),
    }),
    Accepted: object('A finding that the author let stand.', {
        code: words('The code of the finding.'),
        reason: refer('Text', 'Why it may stand.'),
        place: words('What it is about, in English words.'),
    }),
    Coverage: union('How much the tree finds of the faults that come to it.', ['CoverageKnown', 'CoverageUndecided']),
    CoverageKnown: object('All faults were walked through the tree.', {
        type: fixed('known'),
        figures: refer(
            'CoverageFigures',
            'Over all builds of the document. Where it was cut down to one build and `buildsAre` is `choices`, ' +
                'still over all builds that it had before.',
        ),
        buildsAre: oneWordOf(
            ['builds', 'choices'],
            'Whether each entry of `builds` is one build or, where there are too many of them, all builds with one choice.',
        ),
        builds: list(refer('CoverageOfBuilds'), 'In the order of the options and choices.'),
    }),
    CoverageUndecided: object('It could not be worked out.', {
        type: fixed('undecided'),
        reason: words('Why not, in English words.'),
    }),
    CoverageOfBuilds: object('What the tree finds in some builds.', {
        choices: list(refer('ChoiceId'), 'The choices of the one build, or the one choice of all these builds.'),
        share: fraction('The share of the builds of the document, from 0 to 1.'),
        figures: refer('CoverageFigures'),
    }),
    CoverageFigures: object(
        'Fractions of the faults that come to the tree, weighed by how often each comes (MIL-HDBK-2165, IEEE 1522); ' +
            'to six places behind the point.',
        {
            detected: optional(
                fraction('The fraction of faults detected, from 0 to 1; left out where no fault comes to the tree.'),
            ),
            isolated: optional({
                ...someOf(fraction('From 0 to 1.')),
                description:
                    'The fractions isolated to at most one, two and three parts; left out where nothing is found.',
            }),
        },
    ),
    Source: object('A file that the document was made from.', { path, sha256: digest }),
    PictureFile: object('A picture that the document shows.', { path, sha256: optional(digest) }),
};
