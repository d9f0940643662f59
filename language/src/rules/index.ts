/** Every rule there is, in the order of the codes. Written by `npm run generate`: do not edit. */
import type { Rule } from '../core/findings/rule.js';
import ambiguousName from './ambiguous-name/rule.js';
import amountDoesNotFit from './amount-does-not-fit/rule.js';
import amountWithoutUnit from './amount-without-unit/rule.js';
import branchMissing from './branch-missing/rule.js';
import branchTwice from './branch-twice/rule.js';
import deadChoice from './dead-choice/rule.js';
import flowsFeedInCircle from './flows-feed-in-circle/rule.js';
import idleAcceptance from './idle-acceptance/rule.js';
import impossibleGuard from './impossible-guard/rule.js';
import internalFailure from './internal-failure/rule.js';
import methodMissing from './method-missing/rule.js';
import missingFile from './missing-file/rule.js';
import missingPicture from './missing-picture/rule.js';
import mixedJoins from './mixed-joins/rule.js';
import nameTaken from './name-taken/rule.js';
import noValidBuild from './no-valid-build/rule.js';
import normalMissing from './normal-missing/rule.js';
import outcomeMissing from './outcome-missing/rule.js';
import pathOutside from './path-outside/rule.js';
import procedureCallsItself from './procedure-calls-itself/rule.js';
import ruleFailed from './rule-failed/rule.js';
import saidTwice from './said-twice/rule.js';
import settingsInvalid from './settings-invalid/rule.js';
import stepGoesOn from './step-goes-on/rule.js';
import stepWithoutExit from './step-without-exit/rule.js';
import treeWithoutComplaint from './tree-without-complaint/rule.js';
import treeWithoutStep from './tree-without-step/rule.js';
import unclearRange from './unclear-range/rule.js';
import unclosedText from './unclosed-text/rule.js';
import undecidedBuilds from './undecided-builds/rule.js';
import unexpectedCharacter from './unexpected-character/rule.js';
import unexpectedText from './unexpected-text/rule.js';
import unitUnknown from './unit-unknown/rule.js';
import unknownName from './unknown-name/rule.js';
import unreadableFile from './unreadable-file/rule.js';
import unusedDeclaration from './unused-declaration/rule.js';
import usesCircle from './uses-circle/rule.js';

export const rules: readonly Rule[] = [
    ambiguousName,
    amountDoesNotFit,
    amountWithoutUnit,
    branchMissing,
    branchTwice,
    deadChoice,
    flowsFeedInCircle,
    idleAcceptance,
    impossibleGuard,
    internalFailure,
    methodMissing,
    missingFile,
    missingPicture,
    mixedJoins,
    nameTaken,
    noValidBuild,
    normalMissing,
    outcomeMissing,
    pathOutside,
    procedureCallsItself,
    ruleFailed,
    saidTwice,
    settingsInvalid,
    stepGoesOn,
    stepWithoutExit,
    treeWithoutComplaint,
    treeWithoutStep,
    unclearRange,
    unclosedText,
    undecidedBuilds,
    unexpectedCharacter,
    unexpectedText,
    unitUnknown,
    unknownName,
    unreadableFile,
    unusedDeclaration,
    usesCircle,
];
