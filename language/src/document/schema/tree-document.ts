// The schema of one exported tree (JSON Schema 2020-12): the one source of its types and of the published file.

import { cautions } from './cautions.js';
import { equipment } from './equipment.js';
import { identifiers } from './identifiers.js';
import { tests } from './tests.js';
import { trees } from './trees.js';
import { values } from './values.js';
import { verification } from './verification.js';
import {
    type Definitions,
    fixed,
    list,
    object,
    type ObjectSchema,
    optional,
    refer,
    someOf,
    words,
} from './vocabulary.js';

/** The version of the format that is written. */
export const formatVersion = '1.0';

/** What every exported document says it is. */
export const formatName = 'halfsplit-tree';

/** A schema with the definitions that it refers to. */
export interface RootSchema extends ObjectSchema {
    readonly $schema: string;
    readonly $id: string;
    readonly title: string;
    readonly $defs: Definitions;
}

export const treeDocumentSchema: RootSchema = {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: 'urn:halfsplit:tree-document:1.0',
    title: 'TreeDocument',
    ...object(
        'One verified fault isolation tree with all that is needed to walk it. ' +
            'Compatibility is promised from release 1.0.0 of the package on: from then on a document of version 1.x keeps its meaning ' +
            'for every reader of version 1. Until then the format can still change from one release to the next. ' +
            'Nothing is ever null: what does not apply is left out.',
        {
            format: fixed(formatName),
            formatVersion: fixed(formatVersion),
            locales: someOf(
                words(),
                'The locales (BCP 47) that every text of the author has; the first is what the author wrote in.',
            ),
            safetyNotice: refer(
                'Text',
                'That verification is an aid, and what comes before it. Every reader shows it, whatever else it shows: in the locale ' +
                    'of the person where it is there, else in English (`en`), which is always there.',
            ),
            build: optional(
                someOf(
                    refer('ChoiceId'),
                    'The choices of the one build that the document was cut down to; then no guards are left.',
                ),
            ),
            equipment: refer('Equipment'),
            tree: refer('Tree'),
            procedures: list(refer('Procedure'), 'The procedures that the tree follows, and those that they follow.'),
            units: optional(
                someOf(
                    refer('UnitOfMeasure'),
                    'The units that stand in the document, and those without a prefix that measure the same, by code.',
                ),
            ),
            pictures: list(refer('PictureFile'), 'Every picture file that is shown, by path.'),
            verification: refer('Verification'),
            extensions: optional(refer('Extensions')),
        },
    ),
    $defs: {
        ...verification,
        Extensions: {
            type: 'object',
            description:
                'The one place for data of others, under names that they own, such as a domain turned around. ' +
                'It is never written by the exporter and has no say in how the tree is walked.',
            propertyNames: { pattern: '^[A-Za-z0-9]+([.-][A-Za-z0-9]+)+$' },
        },
        ...trees,
        ...cautions,
        ...equipment,
        ...tests,
        ...values,
        ...identifiers,
    },
};
