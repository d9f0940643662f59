// The player: walks an exported tree. It needs nothing but the document, runs anywhere, and never throws; see walking.md.

export { type Loaded, type LoadProblem, loadTree } from './load.js';
export { answer, back, begin, type Beginning, finish } from './play.js';
export { recordOf, type Resumed, resume, type SessionEvent } from './record.js';
export { type Screen, screenOf } from './screen.js';
export type { EndView, FaultView, RepairView } from './screen-end.js';
export type { CautionView, ElementView, GateView, RemarkView, SafetyView } from './screen-parts.js';
export type { StatementView, StepView } from './screen-step.js';
export type { BandView, MethodView, OutcomeView, TestView } from './screen-test.js';
export type { Answer, Finish, Result, Session, TrailEntry } from './session.js';
export type { HandedOver } from './hand-over.js';
export type { Tree } from './tree.js';
export { type Why, why } from './why.js';
