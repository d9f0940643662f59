// Writes the tree and the procedures that it follows: complaints, steps and their statements.

import type * as model from '../../core/model/trees.js';
import type * as document from '../types.js';
import { writeMoney, writeOptionalQuantity, writeQuantity } from './amounts.js';
import { writeConclusion, writeReferral } from './ends.js';
import { writeGuard, writeOptionalState } from './guards.js';
import { writeFaults, writeTestId } from './references.js';
import { writeHandovers, writeRemark, writeRemarks, writeSafetyStatement, writeSettings } from './remarks.js';
import { find, made, present, some, writeId, writeIds, writeOptionalText, type Writer, writeText } from './writer.js';

export function writeTree(writer: Writer, tree: model.Tree): document.Tree {
    return made<document.Tree>({
        id: tree.name.text,
        title: writeOptionalText(writer, tree.title),
        complaints: tree.complaints.map(complaint => writeComplaint(writer, complaint)),
        steps: writeSteps(writer, tree.steps),
        conclusions: tree.conclusions.map(conclusion => writeConclusion(writer, conclusion)),
        referrals: tree.referrals.map(referral => writeReferral(writer, referral)),
        stillWrong: writeHandovers(writer, tree.stillWrong),
        disagree: writeHandovers(writer, tree.disagree),
        ...writeCannot(writer, tree.cannot),
        ...writeRemarks(writer, tree),
        guard: writeGuard(writer, tree),
    });
}

export function writeProcedure(writer: Writer, procedure: model.Procedure): document.Procedure {
    return made<document.Procedure>({
        id: writer.sharedIds.get(procedure) ?? procedure.name.text,
        title: writeOptionalText(writer, procedure.title),
        about: procedure.subject && writeSubject(writer, procedure.subject),
        steps: writeSteps(writer, procedure.steps),
        results: procedure.results.map(result =>
            made<document.Result>({ id: result.name.text, title: writeOptionalText(writer, result.title) }),
        ),
        ...writeCannot(writer, procedure.cannot),
        ...writeRemarks(writer, procedure),
        guard: writeGuard(writer, procedure),
    });
}

function writeSubject(writer: Writer, subject: model.Subject): document.Subject {
    return made<document.Subject>({ of: subject.of, kind: subject.kind && writeId(writer, subject.kind) });
}

function writeCannot(writer: Writer, cannot: readonly model.Cannot[]) {
    return {
        cannotBeRead: writeHandovers(
            writer,
            cannot.filter(({ what }) => what === 'read'),
        ),
        cannotBeDone: writeHandovers(
            writer,
            cannot.filter(({ what }) => what === 'done'),
        ),
    };
}

function writeComplaint(writer: Writer, complaint: model.Complaint): document.Complaint {
    return made<document.Complaint>({
        test: writeTestId(writer, complaint.test),
        outcomes: writeIds(writer, complaint.outcomes),
        when: writeOptionalState(writer, complaint.when),
        mistaken: writeOptionalQuantity(writer, complaint.mistaken),
        guard: writeGuard(writer, complaint),
    });
}

function writeSteps(writer: Writer, steps: readonly model.Step[]): readonly document.Step[] {
    return steps.map(step =>
        made<document.Step>({
            id: step.name.text,
            title: writeOptionalText(writer, step.title),
            cautions: some(writer.cautions.get(step) ?? []),
            statements: present(step.statements.map(statement => writeStatement(writer, statement))),
            guard: writeGuard(writer, step),
        }),
    );
}

function writeStatement(writer: Writer, statement: model.Statement): document.Statement | undefined {
    const guard = writeGuard(writer, statement);
    switch (statement.sort) {
        case 'do':
            return writeDo(writer, statement);
        case 'wait':
            return writeWait(writer, statement);
        case 'gate-used':
            return made<document.UseGate>({ type: 'gate', gate: writeId(writer, statement.gate), guard });
        case 'restore':
            return made<document.RestoreGate>({ type: 'restore', gate: writeId(writer, statement.gate), guard });
        case 'read':
            return writeRead(writer, statement);
        case 'ask':
            return made<document.AskTest>({ type: 'test', ...writeAsked(writer, statement), guard });
        case 'confirm':
            return made<document.ConfirmTest>({
                type: 'confirm',
                ...writeAsked(writer, statement),
                othersDisagree: statement.short || undefined,
                guard,
            });
        case 'follow':
            return writeFollow(writer, statement);
        case 'go':
            return made<document.Go>({ type: 'go', to: writeId(writer, statement.target), guard });
        case 'continue':
            return made<document.ContinueWith>({ type: 'continue', tree: writeId(writer, statement.tree), guard });
        case 'safety':
            return writeSafetyStatement(writer, statement);
        default:
            return writeRemark(writer, statement);
    }
}

function writeDo(writer: Writer, statement: model.Do): document.Do {
    const cleared = statement.clears.map(fault => writeFaults(writer, fault));
    return made<document.Do>({
        type: 'do',
        text: writeText(writer, statement.text),
        sets: writeSettings(writer, statement.settings),
        clears: some(cleared.flatMap(({ faults }) => faults.map(fault => fault.id))),
        clearsPart: some(present(cleared.map(({ wholeSubject }) => wholeSubject))),
        clearsCode: some(present(cleared.map(({ code }) => code))),
        replaces: some(writeIds(writer, statement.replaces)),
        uses: some(writeIds(writer, statement.uses)),
        at: statement.at && writeId(writer, statement.at),
        in: statement.in && writeId(writer, statement.in),
        takes: writeOptionalQuantity(writer, statement.takes),
        costs: writeMoney(writer, statement.costs),
        cannotBeDone: statement.cannot && writeId(writer, statement.cannot),
        guard: writeGuard(writer, statement),
    });
}

function writeRead(writer: Writer, statement: model.Read): document.ReadTests | undefined {
    const tests = some(present(statement.tests.map(test => writeTestId(writer, test))));
    return tests && made<document.ReadTests>({ type: 'read', tests, guard: writeGuard(writer, statement) });
}

function writeWait(writer: Writer, wait: model.Wait): document.Wait | undefined {
    const time = writeQuantity(writer, wait.amount);
    return (
        time &&
        made<document.Wait>({
            type: 'wait',
            time,
            untilSafe: wait.hazard && writeId(writer, wait.hazard),
            text: writeOptionalText(writer, wait.text),
            guard: writeGuard(writer, wait),
        })
    );
}

function writeAsked(writer: Writer, { test, branches }: model.Ask | model.Confirm) {
    // Which outcomes the test of a call has is only known at the call, so the procedure's own names stand.
    const isOpen = !test.test && writer.model.target(test.owner)?.sort === 'subject';
    const writeOutcomes = (outcomes: model.Branch['outcomes']) =>
        isOpen ? outcomes.map(outcome => outcome.text) : writeIds(writer, outcomes);
    return {
        test: writeTestId(writer, test),
        branches: branches.map(branch =>
            made<document.Branch>({
                outcomes: some(writeOutcomes(branch.outcomes)),
                otherwise: branch.otherwise || undefined,
                cannotBeRead: branch.cannotBeRead || undefined,
                to: writeId(writer, branch.target),
                guard: writeGuard(writer, branch),
            }),
        ),
    };
}

function writeFollow(writer: Writer, follow: model.Follow): document.Follow {
    const { subject } = follow;
    const target = subject && find(writer, subject.test ?? subject.owner);
    const isTest = target?.sort === 'test' || (target?.sort === 'subject' && target.of === 'test');
    const id = subject && writeTestId(writer, subject);
    return made<document.Follow>({
        type: 'follow',
        procedure: writeId(writer, follow.procedure),
        withPart: isTest ? undefined : id,
        withTest: isTest ? id : undefined,
        branches: follow.branches.map(branch =>
            made<document.ResultBranch>({
                results: some(writeIds(writer, branch.outcomes)),
                otherwise: branch.otherwise || undefined,
                to: writeId(writer, branch.target),
                guard: writeGuard(writer, branch),
            }),
        ),
        guard: writeGuard(writer, follow),
    });
}
