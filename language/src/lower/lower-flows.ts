// Lowers flows: chains of places, test points and branches side by side.

import type * as ast from '../generated/ast.js';
import type { Chain, ChainElement, Flow, Group, Place, TestPoint } from '../core/model/equipment.js';
import type { Word } from '../core/model/written.js';
import { quoteName } from '../core/text/words.js';
import { declared, type Lowering, report } from './context.js';
import { lowerGuard, lowerState } from './lower-guards.js';
import { lowerTestReference } from './lower-references.js';
import { all, lowerName, lowerProse, lowerReference, lowerWords, none, packed } from './lower-written.js';
import { endOf, pointAround, startOf } from './spans.js';

/** The order in which parts pass something on. */
export function lowerFlow(context: Lowering, node: ast.Flow): Flow {
    const place = node.$cstNode ?? pointAround(node);
    const flow: Flow = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'flow',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        when: lowerState(context, node.when),
        guard: lowerGuard(context, node.guard),
        chain: node.chain ? lowerChain(context, node.chain) : noChain(context, endOf(place)),
        feeds: all(node.feeds).map(feed => lowerFeed(context, feed)),
    };
    return declared(context, flow, node);
}

function lowerChain(context: Lowering, node: ast.Chain): Chain {
    const place = node.$cstNode ?? pointAround(node);
    const elements: ChainElement[] = [];
    for (const element of all(node.elements)) {
        if (element.$type === 'Place') elements.push(lowerPlaceOfFlow(context, element));
        else if (element.$type === 'TestPoint') elements.push(lowerTestPoint(context, element));
        else if (element.$type === 'Group') elements.push(lowerGroup(context, element));
    }
    return { file: context.file, start: startOf(place), end: endOf(place), elements: packed(elements) };
}

function noChain({ file }: Lowering, offset: number): Chain {
    return { file, start: offset, end: offset, elements: none };
}

function lowerFeed(context: Lowering, node: ast.Feed): Flow['feeds'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        part: lowerReference(context, node.part, 'part', place),
        flow: lowerReference(context, node.flow, 'flow', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerPlaceOfFlow(context: Lowering, node: ast.Place): Place {
    const { file } = context;
    const place = node.$cstNode ?? pointAround(node);
    const member = lowerReference(context, node.member, 'member', place);
    const inFlow: Place = {
        file,
        start: startOf(place),
        end: endOf(place),
        sort: 'place',
        name: node.name ? lowerName(context, place, node.name) : { file, start: member.end, end: member.end, text: '' },
        title: undefined,
        member,
        when: lowerState(context, node.when),
        guard: lowerGuard(context, node.guard),
    };
    return declared(context, inFlow, node);
}

function lowerTestPoint(context: Lowering, node: ast.TestPoint): TestPoint {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'test-point',
        tests: all(node.tests).map(test => lowerTestReference(context, test, place)),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerGroup(context: Lowering, node: ast.Group): Group {
    const place = node.$cstNode ?? pointAround(node);
    const joins = lowerWords(context, place, 'operators', node.operators);
    reportMixedJoins(context, joins);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'group',
        joins,
        chains: all(node.chains).map(chain => lowerChain(context, chain)),
        guard: lowerGuard(context, node.guard),
    };
}

// `a or b and c` could mean either of two things, so each bracket joins its branches by one word.
function reportMixedJoins(context: Lowering, joins: readonly Word[]): void {
    const [first] = joins;
    const other = joins.find(({ text }) => text !== first?.text);
    if (!first || !other) return;
    report(
        context,
        'mixed-joins',
        `These branches are joined by both ${quoteName(first.text)} and ${quoteName(other.text)}, so it is not clear which belong together.`,
        other,
        {
            related: [{ file: first.file, start: first.start, end: first.end, text: `joined by \`${first.text}\`` }],
            advice: 'Put the branches that belong together in brackets of their own: `(a or (b and c))`.',
        },
    );
}
