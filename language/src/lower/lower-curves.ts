// Lowers curves: how one quantity follows another by a published law.

import type * as ast from '../generated/ast.js';
import type { Curve, Follows } from '../core/model/tests.js';
import { withUnitOf } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerAmount,
    lowerAmounts,
    lowerName,
    lowerOptionalAmount,
    lowerOptionalWord,
    lowerProse,
    lowerWord,
    lowerWords,
    packed,
} from './lower-written.js';
import { endOf, pointAround, startOf } from './spans.js';

/** A curve with its shape and its limits, as written; whether they make sense a rule asks. */
export function lowerCurve(context: Lowering, node: ast.Curve): Curve {
    const place = node.$cstNode ?? pointAround(node);
    let gathered: GatheredRemarks | undefined;
    const follows: Follows[] = [];
    const limits: Curve['limits'][number][] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Follows':
                follows.push(lowerFollows(context, member));
                break;
            case 'CurveLimits':
                limits.push(lowerLimits(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    const { remarks } = gathered ?? noRemarks;
    const curve: Curve = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'curve',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        follows: packed(follows),
        limits: packed(limits),
        remarks,
    };
    return declared(context, curve, node);
}

function lowerFollows(context: Lowering, node: ast.Follows): Follows {
    const place = node.$cstNode ?? pointAround(node);
    const end = lowerOptionalAmount(context, place, 'end', node.end);
    const values = lowerAmounts(context, place, 'values', node.values);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        shape: lowerWord(context, place, 'shape', node.shape),
        word: lowerOptionalWord(context, place, 'word', node.word),
        modes: lowerWords(context, place, 'modes', node.modes),
        // `0 .. 10 bar`: the unit of the end counts for both.
        values: end ? values.map(value => withUnitOf(value, end)) : values,
        at: lowerOptionalAmount(context, place, 'at', node.at),
        last: end,
        property: lowerOptionalWord(context, place, 'property', node.property),
        propertyValue: lowerOptionalAmount(context, place, 'propertyValue', node.propertyValue),
    };
}

function lowerLimits(context: Lowering, node: ast.CurveLimits): Curve['limits'][number] {
    const place = node.$cstNode ?? pointAround(node);
    const to = lowerAmount(context, place, 'end', node.end);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        from: withUnitOf(lowerAmount(context, place, 'start', node.start), to),
        to,
    };
}
