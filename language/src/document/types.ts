// The types of the exported document. Written by `npm run generate` from the schema beside it: do not edit.

/** One verified fault isolation tree with all that is needed to walk it. Compatibility is promised from release 1.0.0 of the package on: from then on a document of version 1.x keeps its meaning for every reader of version 1. Until then the format can still change from one release to the next. Nothing is ever null: what does not apply is left out. */
export interface TreeDocument {
    readonly format: 'halfsplit-tree';
    readonly formatVersion: '1.0';
    /** The locales (BCP 47) that every text of the author has; the first is what the author wrote in. */
    readonly locales: readonly string[];
    /** That verification is an aid, and what comes before it. Every reader shows it, whatever else it shows: in the locale of the person where it is there, else in English (`en`), which is always there. */
    readonly safetyNotice: Text;
    /** The choices of the one build that the document was cut down to; then no guards are left. */
    readonly build?: readonly ChoiceId[];
    readonly equipment: Equipment;
    readonly tree: Tree;
    /** The procedures that the tree follows, and those that they follow. */
    readonly procedures: readonly Procedure[];
    /** The units that stand in the document, and those without a prefix that measure the same, by code. */
    readonly units?: readonly UnitOfMeasure[];
    /** Every picture file that is shown, by path. */
    readonly pictures: readonly PictureFile[];
    readonly verification: Verification;
    readonly extensions?: Extensions;
}

/** What was verified, with what. It tells what was done and found; it is no promise that the tree is right. */
export interface Verification {
    readonly tool: Tool;
    /** When it was exported (RFC 3339, UTC), as the person who exported it said; left out where nobody said. The program itself looks at no clock, so that the same input gives the same bytes. */
    readonly time?: string;
    /** The rules that were asked, by code; none of severity `error` has found anything. Left out where the rules were not asked. */
    readonly rules?: readonly RuleAsked[];
    /** Findings that the author let stand. */
    readonly accepted: readonly Accepted[];
    /** How much the tree finds; left out where the faults were not walked through it. */
    readonly coverage?: Coverage;
    /** The source files, by path. */
    readonly sources: readonly Source[];
    /** The settings file of the workspace; left out where there is none. */
    readonly settings?: Source;
}

/** The program that verified and exported the tree. */
export interface Tool {
    readonly name: string;
    readonly version: string;
}

/** A rule as it was asked. */
export interface RuleAsked {
    /** The code of its findings. */
    readonly code: string;
    /** The version of the program that first had the rule. */
    readonly since: string;
    /** How much its findings weigh in this workspace; those of a rule that is `off` do not count. */
    readonly severity: 'error' | 'warning' | 'information' | 'off';
}

/** A finding that the author let stand. */
export interface Accepted {
    /** The code of the finding. */
    readonly code: string;
    /** Why it may stand. */
    readonly reason: Text;
    /** What it is about, in English words. */
    readonly place: string;
}

/** How much the tree finds of the faults that come to it. */
export type Coverage = CoverageKnown | CoverageUndecided;

/** All faults were walked through the tree. */
export interface CoverageKnown {
    readonly type: 'known';
    /** Over all builds of the document. Where it was cut down to one build and `buildsAre` is `choices`, still over all builds that it had before. */
    readonly figures: CoverageFigures;
    /** Whether each entry of `builds` is one build or, where there are too many of them, all builds with one choice. */
    readonly buildsAre: 'builds' | 'choices';
    /** In the order of the options and choices. */
    readonly builds: readonly CoverageOfBuilds[];
}

/** It could not be worked out. */
export interface CoverageUndecided {
    readonly type: 'undecided';
    /** Why not, in English words. */
    readonly reason: string;
}

/** What the tree finds in some builds. */
export interface CoverageOfBuilds {
    /** The choices of the one build, or the one choice of all these builds. */
    readonly choices: readonly ChoiceId[];
    /** The share of the builds of the document, from 0 to 1. */
    readonly share: number;
    readonly figures: CoverageFigures;
}

/** Fractions of the faults that come to the tree, weighed by how often each comes (MIL-HDBK-2165, IEEE 1522); to six places behind the point. */
export interface CoverageFigures {
    /** The fraction of faults detected, from 0 to 1; left out where no fault comes to the tree. */
    readonly detected?: number;
    /** The fractions isolated to at most one, two and three parts; left out where nothing is found. */
    readonly isolated?: readonly number[];
}

/** A file that the document was made from. */
export interface Source {
    /** Relative to the workspace, with `/` between folders. */
    readonly path: string;
    /** SHA-256 of the bytes, in hexadecimal. */
    readonly sha256: string;
}

/** A picture that the document shows. */
export interface PictureFile {
    /** Relative to the workspace, with `/` between folders. */
    readonly path: string;
    /** SHA-256 of the bytes, in hexadecimal. */
    readonly sha256?: string;
}

/** The one place for data of others, under names that they own, such as a domain turned around. It is never written by the exporter and has no say in how the tree is walked. */
export type Extensions = Readonly<Record<string, unknown>>;

/** One fault isolation procedure for one complaint. */
export interface Tree {
    readonly id: TreeId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly complaints: readonly Complaint[];
    /** The technician starts at the first. */
    readonly steps: readonly Step[];
    readonly conclusions: readonly Conclusion[];
    readonly referrals: readonly Referral[];
    /** Where to go on if the complaint is still there after a repair. */
    readonly stillWrong?: readonly Handover[];
    /** Where to go on if a confirming test does not confirm. */
    readonly disagree?: readonly Handover[];
    /** Where to go on if a test cannot be read and its branches do not say. */
    readonly cannotBeRead?: readonly Handover[];
    /** Where to go on if something cannot be done and it does not say. */
    readonly cannotBeDone?: readonly Handover[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What sends the technician to this tree. */
export interface Complaint {
    readonly test: TestId;
    readonly outcomes: readonly OutcomeId[];
    readonly when?: State;
    /** The share of complaints that are mistaken. */
    readonly mistaken?: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Steps that trees share. */
export interface Procedure {
    readonly id: ProcedureId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** What the procedure is about; inside it is called `it`. */
    readonly about?: Subject;
    /** The technician starts at the first. */
    readonly steps: readonly Step[];
    readonly results: readonly Result[];
    readonly cannotBeRead?: readonly Handover[];
    readonly cannotBeDone?: readonly Handover[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What a procedure is about. */
export interface Subject {
    readonly of: 'part' | 'test' | 'kind';
    /** The kind that the part must be of, where `of` is `kind`. */
    readonly kind?: KindId;
}

/** How a procedure can end. */
export interface Result {
    readonly id: TargetId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
}

/** A thing to do. Statements are carried out in order until one leads on. */
export interface Step {
    readonly id: TargetId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** What can hurt here and what controls it, worked out of the whole equipment; show it before the work, together with the safety statements that it names. */
    readonly cautions?: readonly Caution[];
    readonly statements: readonly Statement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One statement of a step. */
export type Statement =
    | Do
    | Wait
    | UseGate
    | RestoreGate
    | ReadTests
    | AskTest
    | ConfirmTest
    | Follow
    | Go
    | ContinueWith
    | Note
    | Picture
    | Pointer
    | SafetyStatement;

/** Do something. */
export interface Do {
    readonly type: 'do';
    /** The instruction. */
    readonly text: Text;
    readonly sets?: readonly Setting[];
    /** Faults that are gone after this. */
    readonly clears?: readonly FaultId[];
    /** What a procedure is about, where all of its faults are gone after this. */
    readonly clearsPart?: readonly PartId[];
    /** Tests whose remembered code is gone after this. */
    readonly clearsCode?: readonly TestId[];
    /** Parts that are replaced, so that all of their faults are gone. */
    readonly replaces?: readonly PartId[];
    /** Parts that must work for this. */
    readonly uses?: readonly PartId[];
    /** The part at which the work is. */
    readonly at?: PartId;
    /** The zone in which the work is. */
    readonly in?: ZoneId;
    /** The working time. */
    readonly takes?: Quantity;
    readonly costs?: Money;
    /** Where to go if it cannot be done. */
    readonly cannotBeDone?: TargetId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Wait. */
export interface Wait {
    readonly type: 'wait';
    readonly time: Quantity;
    /** The hazard that is gone after this. */
    readonly untilSafe?: EnergyId;
    readonly text?: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Go through a gate. */
export interface UseGate {
    readonly type: 'gate';
    readonly gate: GateId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Restore what a gate controls. */
export interface RestoreGate {
    readonly type: 'restore';
    readonly gate: GateId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Take readings and note them, for tests that are calculated from them. Nothing branches on them. */
export interface ReadTests {
    readonly type: 'read';
    readonly tests: readonly TestId[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Make a test and go where its outcome leads. */
export interface AskTest {
    readonly type: 'test';
    readonly test: TestId;
    readonly branches: readonly Branch[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Make a test that should say what is known already. */
export interface ConfirmTest {
    readonly type: 'confirm';
    readonly test: TestId;
    readonly branches: readonly Branch[];
    /** Outcomes that no branch names lead to where the tree says under `disagree`. */
    readonly othersDisagree?: true;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Follow a procedure and go where its result leads. */
export interface Follow {
    readonly type: 'follow';
    readonly procedure: ProcedureId;
    /** What `it` stands for, where the procedure is about a part. */
    readonly withPart?: PartId;
    /** What `it` stands for, where the procedure is about a test. */
    readonly withTest?: TestId;
    readonly branches: readonly ResultBranch[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Go on elsewhere. */
export interface Go {
    readonly type: 'go';
    readonly to: TargetId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Go on with another tree, which is a document of its own. */
export interface ContinueWith {
    readonly type: 'continue';
    readonly tree: TreeId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Where outcomes lead; it has one of `outcomes`, `otherwise` and `cannotBeRead`. */
export interface Branch {
    readonly outcomes?: readonly OutcomeId[];
    /** It is for every outcome that no other branch names. */
    readonly otherwise?: true;
    /** It is for a test that cannot be read. */
    readonly cannotBeRead?: true;
    readonly to: TargetId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Where results lead; it has one of `results` and `otherwise`. */
export interface ResultBranch {
    readonly results?: readonly ResultId[];
    /** It is for every result that no other branch names. */
    readonly otherwise?: true;
    readonly to: TargetId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Faults that a path proves, with their repair. */
export interface Conclusion {
    readonly id: TargetId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The repairs are tried in this order until the complaint is gone. */
    readonly inOrder?: true;
    /** The faults that it names. */
    readonly faults?: readonly GuardedFault[];
    /** What to do, in the order of the faults: the repairs of the end, else of each fault, else of its part. */
    readonly repairs?: readonly EndRepair[];
    /** The complaint is not tested again after the repair. */
    readonly unconfirmed?: readonly Unconfirmed[];
    /** What stays as it is, on purpose. */
    readonly leaves?: readonly Leaves[];
    /** Where to go on if the complaint is still there; else where the tree says, else to its first step. */
    readonly stillWrong?: readonly Handover[];
    /** What can hurt here and what controls it, worked out of the whole equipment; show it before the work, together with the safety statements that it names. */
    readonly cautions?: readonly Caution[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A deliberate handing over to somebody else. */
export interface Referral {
    readonly id: TargetId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly reason?: Text;
    /** The faults that it names. */
    readonly faults?: readonly GuardedFault[];
    /** What to do, in the order of the faults: the repairs of the end, else of each fault, else of its part. */
    readonly repairs?: readonly EndRepair[];
    /** The complaint is not tested again after the repair. */
    readonly unconfirmed?: readonly Unconfirmed[];
    /** What stays as it is, on purpose. */
    readonly leaves?: readonly Leaves[];
    /** Where to go on if the complaint is still there; else where the tree says, else to its first step. */
    readonly stillWrong?: readonly Handover[];
    /** What can hurt here and what controls it, worked out of the whole equipment; show it before the work, together with the safety statements that it names. */
    readonly cautions?: readonly Caution[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A fault for some builds or for all. */
export interface GuardedFault {
    readonly fault: FaultId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A repair at an end. */
export interface EndRepair {
    /** The faults that it puts right. */
    readonly faults?: readonly FaultId[];
    readonly action: 'replace' | 'reset' | 'repair';
    /** The instruction. */
    readonly text: Text;
    /** The working time. */
    readonly takes?: Quantity;
    /** What the parts cost. */
    readonly costs?: Money;
    /** The gates to go through before the work and to restore after it. */
    readonly gates?: readonly GateId[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Why the complaint is not tested again. */
export interface Unconfirmed {
    readonly reason: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What stays as it is at an end. */
export type Leaves = LeavesGate | LeavesCondition;

/** The gate stays closed. */
export interface LeavesGate {
    readonly gate: GateId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The condition keeps this value. */
export interface LeavesCondition {
    readonly condition: ConditionId;
    readonly value: ValueId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Something to beware of at a step or an end. */
export type Caution = HazardMet | GateChange | StatementsOf;

/** Hands come into a zone that exposes this hazard. */
export interface HazardMet {
    readonly type: 'hazard';
    readonly hazard: EnergyId;
    readonly zone: ZoneId;
    /** Only where `it` stands for this part. */
    readonly withPart?: PartId;
    /** Only where `it` stands for this test. */
    readonly withTest?: TestId;
    /** Exposed only in this state. */
    readonly when?: State;
    /** What controls it. Which of these is in force depends on the way that was taken; at least one is whenever the hazard is exposed, unless the tree that handed over has left a gate closed. Where this is left out the hazard is exposed only in a state that is never met here. */
    readonly controls?: readonly HazardControl[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What controls a hazard. */
export type HazardControl = ControlByGate | ControlByPermit | ControlByWait;

/** The gate is closed, on the way here or for the repair. */
export interface ControlByGate {
    readonly type: 'gate';
    readonly gate: GateId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The hazard stays live: a gate permits this sort of work beside it until the end of the step. */
export interface ControlByPermit {
    readonly type: 'permit';
    readonly gate: GateId;
    /** The sort of work, such as `measuring`. */
    readonly activity: string;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A wait has made it safe. */
export interface ControlByWait {
    readonly type: 'wait';
}

/** A gate of the step changes what is under control. */
export interface GateChange {
    readonly type: 'gate';
    readonly gate: GateId;
    /** The hazard comes under control; it is no longer under control; or work beside it is permitted, and it stays live. */
    readonly change: 'closed' | 'restored' | 'permits';
    readonly hazard: EnergyId;
    /** The sort of work that is permitted. */
    readonly activity?: string;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The safety statements of something that is touched here apply here. It names one thing. */
export interface StatementsOf {
    readonly type: 'statements';
    readonly equipment?: EquipmentId;
    readonly tree?: TreeId;
    readonly procedure?: ProcedureId;
    readonly zone?: ZoneId;
    readonly hazard?: EnergyId;
    readonly part?: PartId;
    readonly fault?: FaultId;
    readonly test?: TestId;
    readonly gate?: GateId;
    /** Only where `it` stands for this part. */
    readonly withPart?: PartId;
    /** Only where `it` stands for this test. */
    readonly withTest?: TestId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One product family, with all of its options. */
export interface Equipment {
    readonly id: EquipmentId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly options: readonly Option[];
    readonly exclusions: readonly Exclusion[];
    readonly hazards: readonly Hazard[];
    readonly zones: readonly Zone[];
    readonly conditions: readonly Condition[];
    readonly supplies: readonly Supply[];
    readonly parts: readonly Part[];
    readonly flows: readonly Flow[];
    /** Its own tests first, then those that its supplies and parts have. */
    readonly tests: readonly Test[];
    readonly gates: readonly Gate[];
    readonly instruments: readonly Instrument[];
    readonly tables: readonly Table[];
    readonly curves: readonly Curve[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
}

/** A way in which units differ. A build has exactly one choice of each option that it has. */
export interface Option {
    readonly id: OptionId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly choices: readonly Choice[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One choice of an option. */
export interface Choice {
    readonly id: ChoiceId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The share of the units; choices without one share evenly what the others leave. */
    readonly share?: Quantity;
    /** How often units of this choice run or start. */
    readonly duty?: Duty;
}

/** How often something happens in a time. */
export interface Duty {
    readonly amount: Quantity;
    readonly per: Quantity;
}

/** Builds that are never made. */
export interface Exclusion {
    /** The builds that do not exist. */
    readonly builds: Guard;
    readonly reason?: Text;
}

/** Energies that can hurt. */
export interface Hazard {
    readonly id: HazardId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly energies: readonly Energy[];
    /** How long the energy takes to go once it is switched off. */
    readonly runDowns?: readonly RunDown[];
    readonly stored?: readonly StoredCharge[];
    readonly startsByItself?: readonly StartsByItself[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One energy of a hazard. */
export interface Energy {
    /** The sort of energy: `electrical`, `mechanical`, `thermal`, `pressure` and so on. */
    readonly energy: string;
    /** How much of it there is. */
    readonly levels?: readonly EnergyLevel[];
}

/** How much of an energy there is. */
export interface EnergyLevel {
    readonly amount: Quantity;
    /** How the amount is meant: `AC`, `gauge`. */
    readonly modes?: readonly string[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** How an energy goes away. */
export interface RunDown {
    readonly manner: 'runs down' | 'cools' | 'discharges' | 'settles';
    readonly time: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A charge that stays. */
export interface StoredCharge {
    /** How much is stored, such as a capacitance. */
    readonly amount: Quantity;
    /** The resistance through which it drains. */
    readonly through?: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The machine can start by itself. */
export interface StartsByItself {
    /** Always true. */
    readonly startsByItself: true;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A place that exposes hazards. */
export interface Zone {
    readonly id: ZoneId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly exposures?: readonly Exposure[];
    readonly categories?: readonly MeasurementCategory[];
    /** Where to find it, in words. */
    readonly locations?: readonly GuardedText[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** An energy that a zone exposes. */
export interface Exposure {
    readonly hazard: EnergyId;
    /** Exposed only in this state. */
    readonly when?: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A set-up that the technician can change. */
export interface Condition {
    readonly id: ConditionId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The first value is how the unit is found. */
    readonly values: readonly ConditionValue[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One value of a condition. */
export interface ConditionValue {
    readonly id: ValueId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** Parts that do nothing while this value is set. */
    readonly bypasses?: readonly PartId[];
}

/** What comes from outside the product and can fail. */
export interface Supply {
    readonly id: SupplyId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The hazard that it carries. */
    readonly carries?: HazardId;
    /** The flows that it protects, as a fuse does. */
    readonly protects?: readonly Protects[];
    /** The zone that it is in; for a test without one of its own, that of its part. */
    readonly zones?: readonly InZone[];
    /** Where to find it, in words. */
    readonly locations?: readonly GuardedText[];
    readonly faults: readonly Fault[];
    /** What puts its faults right, where a fault has no repair of its own. */
    readonly repairs?: readonly Repair[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What can be replaced or put right. What its kind says is written out here. */
export interface Part {
    readonly id: PartId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The kind that it is of. */
    readonly kind?: KindId;
    /** The flows that it protects, as a fuse does. */
    readonly protects?: readonly Protects[];
    /** The zone that it is in; for a test without one of its own, that of its part. */
    readonly zones?: readonly InZone[];
    /** Where to find it, in words. */
    readonly locations?: readonly GuardedText[];
    readonly faults: readonly Fault[];
    /** What puts its faults right, where a fault has no repair of its own. */
    readonly repairs?: readonly Repair[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Flows that a part protects. */
export interface Protects {
    readonly flows: readonly FlowId[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** One way in which a part fails: a failure mode (IEC 60812). */
export interface Fault {
    readonly id: FaultId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** What it does to what its part passes on. */
    readonly effects: readonly Effect[];
    readonly rates?: readonly Rate[];
    /** Where it acts; at every place of its part where this is left out. */
    readonly places?: readonly FaultPlaces[];
    /** It comes and goes. */
    readonly intermittent?: readonly Intermittent[];
    /** What tests show with it, in place of what its effect leads to. */
    readonly makes?: readonly Makes[];
    readonly causes?: readonly Causes[];
    /** What puts it right, in place of the repairs of its part. */
    readonly repairs?: readonly Repair[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What a fault does to what its part passes on. */
export interface Effect {
    readonly effect: 'stops' | 'weakens' | 'raises' | 'loads' | 'shorts';
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** How often a fault comes up. */
export type Rate = RateOverDuty | RateWhenCaused;

/** So many in so much running time, or in so many starts. */
export interface RateOverDuty {
    readonly amount: Quantity;
    readonly per: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Only together with a fault that causes it. */
export interface RateWhenCaused {
    /** Always true. */
    readonly onlyWhenCaused: true;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Places in flows at which a fault acts. */
export interface FaultPlaces {
    readonly at: readonly PlaceOrFlow[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A place in a flow, or every place of the part in a flow. */
export type PlaceOrFlow = LabelledPlace | PlacesInFlow;

/** The place with this label. */
export interface LabelledPlace {
    readonly place: PlaceId;
}

/** Every place that the part has in this flow. */
export interface PlacesInFlow {
    readonly flow: FlowId;
}

/** A fault that comes and goes: a normal answer does not acquit it. */
export interface Intermittent {
    /** It is there for sure in this state. */
    readonly unless?: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What a test shows with a fault. */
export interface Makes {
    readonly test: TestId;
    /** Any one of these. */
    readonly outcomes: readonly OutcomeId[];
    /** Only in this state; otherwise the test shows what it shows without the fault. */
    readonly when?: State;
    /** Not in this state; there the test shows what it shows without the fault. */
    readonly unless?: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Other faults that come with a fault. */
export interface Causes {
    readonly faults: readonly GuardedFault[];
    /** How long the unit runs until they come back. */
    readonly after?: Quantity;
}

/** The order in which parts pass something on. */
export interface Flow {
    readonly id: FlowId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The flow exists only in this state. */
    readonly when?: State;
    readonly chain: Chain;
    /** Places of other flows that work only while this flow carries something. */
    readonly feeds?: readonly Feed[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A part that is fed for another flow. */
export interface Feed {
    readonly part: PartId;
    readonly flow: FlowId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What stands in a row, from the source onward. */
export type Chain = readonly ChainElement[];

/** One element of a flow. */
export type ChainElement = Place | TestPoint | Group;

/** One place of a part, a supply or an energy in a flow. */
export interface Place {
    readonly type: 'place';
    /** Its label, where it has one. */
    readonly id?: PlaceId;
    readonly member: MemberId;
    /** It passes something on only in this state. */
    readonly when?: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A point at which tests look. */
export interface TestPoint {
    readonly type: 'test-point';
    readonly tests: readonly TestId[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Branches side by side. */
export interface Group {
    readonly type: 'group';
    /** What stands between the branches: with `or` either is enough, with `with` losing one weakens, with `and` both are needed. */
    readonly joins: readonly ('or' | 'with' | 'and')[];
    readonly branches: readonly Chain[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What is observed or measured. */
export interface Test {
    readonly id: TestId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** The part or supply that has the test, itself or from its kind. */
    readonly owner?: PartId;
    /** The part that it looks at. */
    readonly part?: PartId;
    /** The zone that it is in; for a test without one of its own, that of its part. */
    readonly zones?: readonly InZone[];
    /** Where to find it, in words. */
    readonly locations?: readonly GuardedText[];
    readonly methods: readonly Method[];
    /** All of these must hold when the test is made. */
    readonly needs?: readonly GuardedState[];
    /** The short while in which the reading exists. */
    readonly during?: During;
    /** It shows a code that stays until it is cleared. */
    readonly remembers?: true;
    /** The working time. */
    readonly takes?: readonly GuardedQuantity[];
    readonly costs?: readonly GuardedMoney[];
    /** Faults that it looks at directly, whatever the flows say. */
    readonly checks?: readonly Check[];
    /** It measures between two points of a flow. */
    readonly across?: readonly Across[];
    /** It measures what passes through a flow. */
    readonly through?: readonly Through[];
    /** In the order of the author. */
    readonly outcomes: readonly Outcome[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** How a test is made. */
export type Method = Measure | Observe | Calculate | Identify;

/** Read an instrument. */
export interface Measure {
    readonly type: 'measure';
    /** What is measured: `voltage`, `pressure`. */
    readonly quantity: string;
    /** How the quantity is meant: `DC`, `gauge`. */
    readonly modes?: readonly ('AC' | 'DC' | 'rms' | 'peak' | 'gauge' | 'absolute' | 'difference')[];
    readonly instrument?: InstrumentId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Look, listen, feel or smell. */
export interface Observe {
    readonly type: 'observe';
    /** The sense that it is observed with: `eye`, `ear`. */
    readonly sense?: string;
}

/** Calculate from other readings. */
export interface Calculate {
    readonly type: 'calculate';
    /** What is measured: `voltage`, `pressure`. */
    readonly quantity: string;
    /** How the quantity is meant: `DC`, `gauge`. */
    readonly modes?: readonly ('AC' | 'DC' | 'rms' | 'peak' | 'gauge' | 'absolute' | 'difference')[];
    readonly expression: Calculation;
}

/** See which build it is; the outcomes are the choices of the option. */
export interface Identify {
    readonly type: 'identify';
    readonly option: OptionId;
    /** The sense that it is observed with: `eye`, `ear`. */
    readonly sense?: string;
}

/** A value worked out of readings. */
export type Calculation = Operation | Constant | Call | LookUp | Reading;

/** Two values and a sign of arithmetic. */
export interface Operation {
    readonly operator: '+' | '-' | '*' | '/';
    readonly left: Calculation;
    readonly right: Calculation;
}

/** A fixed value. */
export interface Constant {
    readonly constant: Quantity;
}

/** A function of several values: `mean`, `largest`, `smallest`; `deviation` is the largest distance of any value from their mean; `unbalance` is the deviation as a share of the mean. */
export interface Call {
    readonly function: 'mean' | 'largest' | 'smallest' | 'deviation' | 'unbalance';
    readonly arguments: readonly Calculation[];
}

/** What a table or a curve gives for a value. */
export interface LookUp {
    readonly table: TableId;
    readonly argument: Calculation;
    /** The argument is a value of its output, and what is wanted is the input. */
    readonly backward?: true;
}

/** The reading of another test. */
export interface Reading {
    readonly reading: TestId;
}

/** The short while in which a reading exists. */
export interface During {
    readonly text: Text;
    readonly duration?: Quantity;
}

/** A fault that a test looks at directly. */
export interface Check {
    readonly fault: FaultId;
    /** What the test then shows; its first abnormal outcome where this is left out. */
    readonly outcome?: OutcomeId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Two points of a flow. */
export interface Across {
    readonly from: FlowPoint;
    readonly to: FlowPoint;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A point of a flow. */
export type FlowPoint = LabelledPlace | PlaceOfMember;

/** Where this member stands in the flow. */
export interface PlaceOfMember {
    readonly member: MemberId;
}

/** A flow that is measured through. */
export interface Through {
    readonly flow: FlowId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What a test can show. */
export interface Outcome {
    readonly id: OutcomeId;
    /** A healthy unit shows this outcome. */
    readonly healthy?: true;
    /** The choice that is found, for a test that identifies. */
    readonly choice?: ChoiceId;
    /** What counts as this outcome: any case that is for the build and whose state holds. */
    readonly cases: readonly OutcomeCase[];
}

/** One way in which an outcome shows. */
export interface OutcomeCase {
    /** What the technician answers. */
    readonly answer?: Text;
    /** What the technician answers, where it is no more than yes or no. */
    readonly word?: 'yes' | 'no';
    /** Readings that count as this outcome: those in any of the bands. */
    readonly bands?: readonly Band[];
    /** The effects of faults that this outcome shows. */
    readonly shows?: readonly ('stopped' | 'weakened' | 'raised' | 'loaded' | 'shorted')[];
    /** Only in this state. */
    readonly when?: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A range of readings. */
export type Band = Interval | Otherwise | AroundTable;

/** Readings between two ends; without an end it goes on without limit on that side. */
export interface Interval {
    readonly low?: IntervalEnd;
    readonly high?: IntervalEnd;
    /** The UCUM code of the unit of both ends; `1` for plain numbers. */
    readonly unit: string;
    /** The band as the author means it to be shown. */
    readonly display: string;
    /** The band in the other system of units, as an aid for readers; left out where there is none. */
    readonly other?: string;
}

/** One end of an interval. */
export interface IntervalEnd {
    /** The number, with at most 15 significant digits. */
    readonly value: number;
    /** The number had to be rounded to 15 significant digits; left out where it is exact. */
    readonly rounded?: true;
    /** Whether the number itself belongs to the interval. */
    readonly closed: boolean;
}

/** The readings that no other outcome of the test takes. */
export interface Otherwise {
    /** All of them, only those below the healthy readings, or only those above. */
    readonly otherwise: 'any' | 'below' | 'above';
}

/** Readings near what a table or a curve gives for another reading. */
export interface AroundTable {
    readonly table: TableId;
    /** The test whose reading goes into it. */
    readonly input: TestId;
    /** The reading is a value of its output, and what is wanted is the input. */
    readonly backward?: true;
    /** How far off the reading may be, either way; a ratio is taken of the table value. */
    readonly tolerance?: Quantity;
    /** The band as the author means it to be shown. */
    readonly display: string;
}

/** An instrument that readings are taken with. */
export interface Instrument {
    readonly id: InstrumentId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly measures?: readonly Measures[];
    readonly categories?: readonly MeasurementCategory[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
}

/** What an instrument can measure. */
export interface Measures {
    /** What is measured: `voltage`, `pressure`. */
    readonly quantity: string;
    /** How the quantity is meant: `DC`, `gauge`. */
    readonly modes?: readonly ('AC' | 'DC' | 'rms' | 'peak' | 'gauge' | 'absolute' | 'difference')[];
    readonly from?: Quantity;
    readonly to?: Quantity;
    readonly resolution?: Quantity;
    /** The largest error; a ratio is taken of the reading. */
    readonly accuracy?: Quantity;
    /** What is added to the largest error. */
    readonly accuracyPlus?: Quantity;
}

/** Pairs of values, with what lies between them. */
export interface Table {
    readonly id: TableId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly input: TableSide;
    readonly output: TableSide;
    /** Between two rows; `logarithmic` is straight in the logarithm of the output. */
    readonly interpolation: 'linear' | 'logarithmic';
    readonly rows: readonly TableRow[];
}

/** What one side of a table holds. */
export interface TableSide {
    /** What is measured: `voltage`, `pressure`. */
    readonly quantity: string;
    /** How the quantity is meant: `DC`, `gauge`. */
    readonly modes?: readonly ('AC' | 'DC' | 'rms' | 'peak' | 'gauge' | 'absolute' | 'difference')[];
}

/** How one quantity follows another by a published law. */
export interface Curve {
    readonly id: TableId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    readonly law: Law;
    /** Below this input the curve gives no value. */
    readonly from?: Quantity;
    /** Above this input the curve gives no value. */
    readonly to?: Quantity;
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
}

/** The law of a curve, with its figures. */
export type Law = PlatinumLaw | ThermistorLaw | SteinhartHartLaw | ThermocoupleLaw | WindingLaw | LoopLaw;

/** Temperature to resistance of a platinum sensor (IEC 60751), from -200 °C to 850 °C. */
export interface PlatinumLaw {
    readonly law: 'platinum';
    /** The resistance at 0 °C. */
    readonly atZero: Quantity;
}

/** Temperature to resistance: R = resistance * exp(beta * (1/T - 1/temperature)), temperatures in kelvins. */
export interface ThermistorLaw {
    readonly law: 'ntc';
    readonly resistance: Quantity;
    readonly temperature: Quantity;
    readonly beta: Quantity;
}

/** Temperature to resistance: 1/T = a + b * ln R + c * (ln R)^3, with T in kelvins and R in ohms. */
export interface SteinhartHartLaw {
    readonly law: 'steinhart-hart';
    readonly a: Quantity;
    readonly b: Quantity;
    readonly c: Quantity;
}

/** Temperature to voltage of a thermocouple (ITS-90), with its reference junction at 0 °C. */
export interface ThermocoupleLaw {
    readonly law: 'thermocouple';
    /** Its type by IEC 60584-1. */
    readonly letter: 'E' | 'J' | 'K' | 'N' | 'T';
}

/** Temperature to resistance: R = resistance * (constant + t) / (constant + temperature), all in °C. */
export interface WindingLaw {
    readonly law: 'winding';
    readonly resistance: Quantity;
    readonly temperature: Quantity;
    /** As a number of kelvins: 234.5 or 235 for copper, 225 for aluminum. */
    readonly constant: Quantity;
}

/** A quantity to the current of a loop; currents below 3.8 mA or above 20.5 mA stand for no value (NAMUR NE 43). */
export interface LoopLaw {
    readonly law: 'loop';
    /** What is measured: `voltage`, `pressure`. */
    readonly quantity: string;
    /** How the quantity is meant: `DC`, `gauge`. */
    readonly modes?: readonly ('AC' | 'DC' | 'rms' | 'peak' | 'gauge' | 'absolute' | 'difference')[];
    /** What 4 mA stands for. */
    readonly low: Quantity;
    /** What 20 mA stands for. */
    readonly high: Quantity;
}

/** One pair of values. */
export interface TableRow {
    readonly input: Quantity;
    readonly output: Quantity;
}

/** A procedure that puts hazards under control, or allows one kind of work beside them. */
export interface Gate {
    readonly id: GateId;
    /** What people read; show the id where it is left out. */
    readonly title?: Text;
    /** Under control until the gate is restored. */
    readonly controls?: readonly ControlledHazard[];
    /** Allowed until the end of the step. */
    readonly permits?: readonly Permit[];
    /** What instruments must be rated for. */
    readonly instrumentCategories?: readonly MeasurementCategory[];
    /** What to wear. */
    readonly wear?: readonly GuardedText[];
    /** What to do, in this order; the `restore` elements when the gate is restored. */
    readonly elements?: readonly GateElement[];
    readonly takes?: readonly GuardedQuantity[];
    /** Notes, pictures and pointers, in the order to show them. */
    readonly remarks?: readonly Remark[];
    /** Safety statements, in the order to show them. */
    readonly safety?: readonly SafetyStatement[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A hazard, or a supply that carries one. */
export interface ControlledHazard {
    readonly hazard: EnergyId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Work that is allowed beside hazards. */
export interface Permit {
    /** The sort of work, such as `measuring`. */
    readonly activity: string;
    readonly hazards: readonly ControlledHazard[];
}

/** One thing to do at a gate. */
export interface GateElement {
    /** What it is for (29 CFR 1910.147; `earth` and `shield` as in EN 50110-1; `block` holds a weight or a moving part). */
    readonly element:
        'prepare' | 'shut-down' | 'isolate' | 'lock' | 'release' | 'earth' | 'shield' | 'block' | 'prove' | 'restore';
    /** What it is about; all that the gate controls where this is left out. */
    readonly hazards?: readonly EnergyId[];
    readonly text: Text;
    /** How long to wait. */
    readonly duration?: Quantity;
    readonly sets?: readonly Setting[];
    readonly takes?: Quantity;
    readonly instrument?: InstrumentId;
    /** The instrument is proved on a known source before and after. */
    readonly provedBeforeAndAfter?: true;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** What people read, by locale (a BCP 47 language tag). It is plain text: show it as it is and never as markup. A line feed begins a new line. */
export type Text = Readonly<Record<string, string>>;

/** A number with its unit. */
export interface Quantity {
    /** The number in this unit. It is the decimal that the author wrote, with at most 15 significant digits. */
    readonly value: number;
    /** The number had to be rounded to 15 significant digits; left out where it is exact. */
    readonly rounded?: true;
    /** The UCUM code of the unit; `1` for a plain number. */
    readonly unit: string;
    /** The quantity as the author means it to be shown: `24.0 V`. */
    readonly display: string;
    readonly other?: OtherQuantity;
}

/** The same quantity in the other system of units (SI or United States customary), rounded as finely as it was written; an aid for readers, nothing is compared with it. Left out where both systems use the same unit. */
export interface OtherQuantity {
    /** The number in this unit. */
    readonly value: number;
    /** The UCUM code of the unit. */
    readonly unit: string;
    /** What to show: `165 kPa`. */
    readonly display: string;
}

/** A unit, and how many units of the SI it is: (number + offset) * factor / divisor. Of a difference of two values the offset is left out. */
export interface UnitOfMeasure {
    /** The UCUM code of the unit. */
    readonly code: string;
    /** What it measures, as powers of base dimensions; values in units that have the same here can be compared. */
    readonly dimension: string;
    /** How many units of the SI it is, times the divisor. */
    readonly factor: number;
    /** 1 where it is left out. */
    readonly divisor?: number;
    /** What is added to the number; 0 where it is left out. */
    readonly offset?: number;
}

/** A price. */
export interface Money {
    /** The amount in this currency. */
    readonly amount: number;
    /** The number had to be rounded to 15 significant digits; left out where it is exact. */
    readonly rounded?: true;
    /** The ISO 4217 code of the currency. */
    readonly currency: string;
    /** The price as the author means it to be shown. */
    readonly display: string;
}

/** Builds, as an expression over choices. */
export type Guard = ChoiceGuard | NotGuard | AllGuard | AnyGuard;

/** The builds with this choice. */
export interface ChoiceGuard {
    readonly choice: ChoiceId;
}

/** The builds for which the operand does not hold. */
export interface NotGuard {
    readonly not: Guard;
}

/** The builds for which every operand holds. */
export interface AllGuard {
    readonly all: readonly Guard[];
}

/** The builds for which at least one operand holds. */
export interface AnyGuard {
    readonly any: readonly Guard[];
}

/** A state of the unit, as an expression over conditions, hazards and flows. */
export type State = ConditionState | IsolatedState | AllIsolatedState | FlowingState | NotState | AllStates | AnyState;

/** The condition has this value. */
export interface ConditionState {
    readonly condition: ConditionId;
    readonly value: ValueId;
}

/** A gate holds this energy under control. */
export interface IsolatedState {
    readonly isolated: EnergyId;
}

/** A gate holds every energy under control that the zone exposes. */
export interface AllIsolatedState {
    /** Every energy that the zone of the work exposes. */
    readonly allIsolated: true;
}

/** The flow carries what it should. */
export interface FlowingState {
    readonly flowing: FlowId;
}

/** The operand does not hold. */
export interface NotState {
    readonly not: State;
}

/** Every operand holds. */
export interface AllStates {
    readonly all: readonly State[];
}

/** At least one operand holds. */
export interface AnyState {
    readonly any: readonly State[];
}

/** What people read beside something. */
export type Remark = Note | Picture | Pointer;

/** A note. */
export interface Note {
    readonly type: 'note';
    readonly text: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A picture. */
export interface Picture {
    readonly type: 'picture';
    /** The path of the file, relative to the workspace, with `/` between folders. */
    readonly path: string;
    /** What the picture shows, for people who cannot see it. */
    readonly alternative?: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A pointer to another document. */
export interface Pointer {
    readonly type: 'see';
    readonly text: Text;
    /** Where the document is; check it before you open it, since it is what the author wrote. */
    readonly link?: string;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A safety statement; show it before the work that it is about, and never leave it out. */
export interface SafetyStatement {
    readonly type: 'safety';
    /** The signal word (ANSI Z535.6). */
    readonly signalWord: 'danger' | 'warning' | 'caution' | 'notice';
    /** The hazard that it is about. */
    readonly hazard?: EnergyId;
    readonly text: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A text for some builds or for all. */
export interface GuardedText {
    readonly text: Text;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A quantity for some builds or for all. */
export interface GuardedQuantity {
    readonly amount: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A price for some builds or for all. */
export interface GuardedMoney {
    readonly amount: Money;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A state for some builds or for all. */
export interface GuardedState {
    readonly state: State;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The zone in which something is. */
export interface InZone {
    readonly zone: ZoneId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** Where the technician goes on. */
export interface Handover {
    readonly to: TargetId;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** A condition that is given a value. */
export interface Setting {
    readonly condition: ConditionId;
    readonly value: ValueId;
}

/** A measurement category (IEC 61010). */
export interface MeasurementCategory {
    /** `I`, `II`, `III` or `IV`. */
    readonly category: string;
    readonly voltage?: Quantity;
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** How a fault is put right. */
export interface Repair {
    readonly action: 'replace' | 'reset' | 'repair';
    /** The instruction. */
    readonly text: Text;
    /** The working time. */
    readonly takes?: Quantity;
    /** What the parts cost. */
    readonly costs?: Money;
    /** The gates to go through before the work and to restore after it. */
    readonly gates?: readonly GateId[];
    /** The builds for which this holds; all for which what it stands in holds where it is left out. */
    readonly guard?: Guard;
}

/** The name of the equipment. */
export type EquipmentId = string;

/** The name of an option. */
export type OptionId = string;

/** The name of a choice with its option before it: `supply.three-phase`. */
export type ChoiceId = string;

/** The name of a hazard. */
export type HazardId = string;

/** The name of a hazard, or of a supply that carries one. */
export type EnergyId = string;

/** The name of a zone. */
export type ZoneId = string;

/** The name of a condition. */
export type ConditionId = string;

/** The name of a value, unique within its condition. */
export type ValueId = string;

/** The name of a supply. */
export type SupplyId = string;

/** The name of a part or supply. In a procedure that has a subject, `it` stands for what the call names. */
export type PartId = string;

/** The name of a part, a supply or a hazard, as it stands in a flow. */
export type MemberId = string;

/** The name of a kind of part. */
export type KindId = string;

/** The name of a fault with its part before it: `contactor.coil-open`. In a procedure that has a subject, `it.coil-open` is that fault of what the call names. */
export type FaultId = string;

/** The name of a flow. */
export type FlowId = string;

/** The label of a place in a flow. */
export type PlaceId = string;

/** The name of a test, with its part before it where the part has it: `contactor.coil-resistance`. In a procedure that has a subject, `it` and `it.coil-resistance` stand for what the call names. */
export type TestId = string;

/** The name of an outcome, unique within its test. */
export type OutcomeId = string;

/** The name of an instrument. */
export type InstrumentId = string;

/** The name of a table or a curve. */
export type TableId = string;

/** The name of a gate. */
export type GateId = string;

/** The name of a tree. */
export type TreeId = string;

/** The name of a procedure. */
export type ProcedureId = string;

/** The name of a result, unique within its procedure. */
export type ResultId = string;

/** The name of a step or an end, unique within its tree or procedure: steps, conclusions and referrals of a tree share one list of names, and so do steps and results of a procedure. */
export type TargetId = string;
