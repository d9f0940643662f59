// The trees of a unit as the walk goes through them: stations, with every procedure written out where it is followed.

import type {
    Ask,
    Branch,
    Cannot,
    Conclusion,
    Confirm,
    ContinueWith,
    Do,
    Follow,
    Go,
    GuardedFault,
    Handover,
    Procedure,
    Read,
    Referral,
    Restore,
    Result,
    Step,
    Tree,
    UseGate,
    Wait,
} from '../model/trees.js';
import type { TestReference } from '../model/tests.js';
import type { InBuilds, Limited, Milliseconds, StateCondition, Unit, UnitRepair, UnitSetting } from './unit.js';

/** The route of one tree. */
export interface Route {
    readonly unit: Unit;
    readonly tree: Tree;
    readonly guard: InBuilds;
    readonly complaints: readonly RouteComplaint[];
    /** In the order written, those of a procedure behind the station that follows it; the first is the start. */
    readonly stations: readonly Station[];
    readonly ends: readonly RouteEnd[];
    /** Every way from a station, numbered. */
    readonly exits: readonly Exit[];
    readonly stillWrong: readonly Way[];
}

export interface RouteComplaint extends Limited {
    readonly test: number;
    readonly outcomes: readonly number[];
    readonly when: StateCondition | undefined;
    /** The share of mistaken complaints, from 0 to 1. */
    readonly mistaken: number;
}

/** A step where it is done: the same step of a procedure is another station at each place that follows it. */
export interface Station extends Limited {
    readonly number: number;
    readonly owner: Tree | Procedure;
    readonly step: Step;
    /** The stations whose `follow` led here, the outermost first. */
    readonly calls: readonly number[];
    readonly actions: readonly Action[];
}

/** One way on: where it leads in which builds. A way without any of them leads nowhere. */
export interface Way extends Limited {
    readonly to: Destination;
}

export type Destination =
    | { readonly sort: 'station'; readonly station: number }
    | { readonly sort: 'end'; readonly end: number }
    /** The result of a procedure: where the branches of its caller lead, each an exit of the station that follows it. */
    | { readonly sort: 'result'; readonly result: Result; readonly exits: readonly number[] }
    /** Another tree of the equipment, which goes on in the builds that it is for. */
    | ({ readonly sort: 'tree'; readonly tree: Tree } & Limited)
    /** The name is unknown: the linker has told it. */
    | { readonly sort: 'nowhere' };

/** How a station is left. */
export interface Exit extends Limited {
    readonly number: number;
    readonly station: number;
    readonly why:
        'branch' | 'expected' | 'disagree' | 'cannot be read' | 'cannot be done' | 'result' | 'go' | 'continue';
    /** What is written: the branch, the statement, or the clause of the tree. */
    readonly written: Branch | Confirm | Follow | Go | ContinueWith | Cannot | Handover | Do;
    /** Numbers of outcomes for which a branch is taken; empty for other exits. */
    readonly outcomes: readonly number[];
    readonly to: Destination;
}

export type Action =
    | DoAction
    | (Limited & {
          readonly sort: 'wait';
          readonly written: Wait;
          readonly time: Milliseconds;
          readonly hazard: number | undefined;
      })
    | (Limited & { readonly sort: 'gate'; readonly written: UseGate; readonly gate: number })
    | (Limited & { readonly sort: 'restore'; readonly written: Restore; readonly gate: number })
    | ReadAction
    | AskAction
    | (Limited & {
          readonly sort: 'follow';
          readonly written: Follow;
          readonly guardOfProcedure: InBuilds;
          readonly to: Destination;
      })
    | (Limited & { readonly sort: 'leave'; readonly written: Go | ContinueWith; readonly exit: number });

export interface DoAction extends Limited {
    readonly sort: 'do';
    readonly written: Do;
    readonly settings: readonly UnitSetting[];
    readonly clearsFaults: readonly number[];
    readonly clearsTests: readonly number[];
    readonly replaces: readonly number[];
    readonly uses: readonly number[];
    readonly at: number | undefined;
    readonly zone: number | undefined;
    readonly time: Milliseconds;
    /** Where it leads if it cannot be done; the first whose guard holds. */
    readonly cannot: readonly number[];
}

/** One reading that is taken and noted. */
export interface ReadAction extends Limited {
    readonly sort: 'read';
    readonly written: Read;
    readonly reference: TestReference;
    readonly test: number;
    /** Where it leads if it cannot be read; the first whose guard holds. */
    readonly cannotBeRead: readonly number[];
}

export interface AskAction extends Limited {
    readonly sort: 'ask';
    readonly written: Ask | Confirm;
    readonly test: number;
    readonly confirms: boolean;
    /** Exits by outcome. In a build, the first that names the outcome and exists there is taken, else `otherwise`. */
    readonly branches: readonly number[];
    readonly otherwise: readonly number[];
    /** Where an unexpected answer of a short `confirm` leads. */
    readonly disagree: readonly number[];
    readonly cannotBeRead: readonly number[];
}

export interface RouteEnd extends Limited {
    readonly number: number;
    readonly written: Conclusion | Referral;
    /** One for each fault; a whole part that is named stands for each of its faults. */
    readonly names: readonly (Limited & { readonly fault: number; readonly clause: GuardedFault })[];
    readonly repairs: readonly UnitRepair[];
    readonly leavesGates: readonly (Limited & { readonly gate: number })[];
    readonly leavesConditions: readonly (Limited & UnitSetting)[];
    readonly unconfirmed: readonly Limited[];
    readonly stillWrong: readonly Way[];
}
