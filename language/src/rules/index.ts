/** Every rule there is, in the order of the codes. Written by `npm run generate`: do not edit. */
import type { Rule } from '../core/findings/rule.js';
import acDcMismatch from './ac-dc-mismatch/rule.js';
import ambiguous from './ambiguous/rule.js';
import ambiguousName from './ambiguous-name/rule.js';
import amountDoesNotFit from './amount-does-not-fit/rule.js';
import amountWithoutUnit from './amount-without-unit/rule.js';
import branchMissing from './branch-missing/rule.js';
import branchTwice from './branch-twice/rule.js';
import conditionLeft from './condition-left/rule.js';
import contradiction from './contradiction/rule.js';
import curveUnclear from './curve-unclear/rule.js';
import deadChoice from './dead-choice/rule.js';
import deadEnd from './dead-end/rule.js';
import differenceOrValue from './difference-or-value/rule.js';
import dischargeTooSlow from './discharge-too-slow/rule.js';
import doubleFault from './double-fault/rule.js';
import endlessLoop from './endless-loop/rule.js';
import faultInNoTree from './fault-in-no-tree/rule.js';
import faultNotFound from './fault-not-found/rule.js';
import flowsFeedInCircle from './flows-feed-in-circle/rule.js';
import gateIncomplete from './gate-incomplete/rule.js';
import gateLeftClosed from './gate-left-closed/rule.js';
import gateOrder from './gate-order/rule.js';
import gateUndone from './gate-undone/rule.js';
import gaugeOrAbsolute from './gauge-or-absolute/rule.js';
import goodPartReplaced from './good-part-replaced/rule.js';
import healthyCondemned from './healthy-condemned/rule.js';
import idleAcceptance from './idle-acceptance/rule.js';
import impossibleBranch from './impossible-branch/rule.js';
import impossibleGuard from './impossible-guard/rule.js';
import impossibleReading from './impossible-reading/rule.js';
import instrumentCategory from './instrument-category/rule.js';
import internalFailure from './internal-failure/rule.js';
import methodMissing from './method-missing/rule.js';
import missingFile from './missing-file/rule.js';
import missingGate from './missing-gate/rule.js';
import missingInBuild from './missing-in-build/rule.js';
import missingPicture from './missing-picture/rule.js';
import mixedJoins from './mixed-joins/rule.js';
import nameTaken from './name-taken/rule.js';
import noValidBuild from './no-valid-build/rule.js';
import normalMissing from './normal-missing/rule.js';
import outOfRange from './out-of-range/rule.js';
import outcomeMissing from './outcome-missing/rule.js';
import pathOutside from './path-outside/rule.js';
import pointlessTest from './pointless-test/rule.js';
import procedureCallsItself from './procedure-calls-itself/rule.js';
import quantityUnknown from './quantity-unknown/rule.js';
import readingGap from './reading-gap/rule.js';
import readingOverlap from './reading-overlap/rule.js';
import repeatedTest from './repeated-test/rule.js';
import ruleFailed from './rule-failed/rule.js';
import saidTwice from './said-twice/rule.js';
import scenarioFailed from './scenario-failed/rule.js';
import settingsInvalid from './settings-invalid/rule.js';
import signalWord from './signal-word/rule.js';
import stepGoesOn from './step-goes-on/rule.js';
import stepWithoutExit from './step-without-exit/rule.js';
import testNotSetUp from './test-not-set-up/rule.js';
import tooCoarse from './too-coarse/rule.js';
import tooStrong from './too-strong/rule.js';
import treeWithoutComplaint from './tree-without-complaint/rule.js';
import treeWithoutStep from './tree-without-step/rule.js';
import unclearRange from './unclear-range/rule.js';
import unclosedText from './unclosed-text/rule.js';
import undecidedBuilds from './undecided-builds/rule.js';
import undecidedWalk from './undecided-walk/rule.js';
import undeclaredHazard from './undeclared-hazard/rule.js';
import unexpectedCharacter from './unexpected-character/rule.js';
import unexpectedText from './unexpected-text/rule.js';
import unitMismatch from './unit-mismatch/rule.js';
import unitUnknown from './unit-unknown/rule.js';
import unknownName from './unknown-name/rule.js';
import unreachableStep from './unreachable-step/rule.js';
import unreadableFile from './unreadable-file/rule.js';
import unusedDeclaration from './unused-declaration/rule.js';
import usedBeforeTaken from './used-before-taken/rule.js';
import usesCircle from './uses-circle/rule.js';
import waitTooShort from './wait-too-short/rule.js';
import warningAfterStep from './warning-after-step/rule.js';
import warningMissing from './warning-missing/rule.js';
import wrongConclusion from './wrong-conclusion/rule.js';

export const rules: readonly Rule[] = [
    acDcMismatch,
    ambiguous,
    ambiguousName,
    amountDoesNotFit,
    amountWithoutUnit,
    branchMissing,
    branchTwice,
    conditionLeft,
    contradiction,
    curveUnclear,
    deadChoice,
    deadEnd,
    differenceOrValue,
    dischargeTooSlow,
    doubleFault,
    endlessLoop,
    faultInNoTree,
    faultNotFound,
    flowsFeedInCircle,
    gateIncomplete,
    gateLeftClosed,
    gateOrder,
    gateUndone,
    gaugeOrAbsolute,
    goodPartReplaced,
    healthyCondemned,
    idleAcceptance,
    impossibleBranch,
    impossibleGuard,
    impossibleReading,
    instrumentCategory,
    internalFailure,
    methodMissing,
    missingFile,
    missingGate,
    missingInBuild,
    missingPicture,
    mixedJoins,
    nameTaken,
    noValidBuild,
    normalMissing,
    outOfRange,
    outcomeMissing,
    pathOutside,
    pointlessTest,
    procedureCallsItself,
    quantityUnknown,
    readingGap,
    readingOverlap,
    repeatedTest,
    ruleFailed,
    saidTwice,
    scenarioFailed,
    settingsInvalid,
    signalWord,
    stepGoesOn,
    stepWithoutExit,
    testNotSetUp,
    tooCoarse,
    tooStrong,
    treeWithoutComplaint,
    treeWithoutStep,
    unclearRange,
    unclosedText,
    undecidedBuilds,
    undecidedWalk,
    undeclaredHazard,
    unexpectedCharacter,
    unexpectedText,
    unitMismatch,
    unitUnknown,
    unknownName,
    unreachableStep,
    unreadableFile,
    unusedDeclaration,
    usedBeforeTaken,
    usesCircle,
    waitTooShort,
    warningAfterStep,
    warningMissing,
    wrongConclusion,
];
