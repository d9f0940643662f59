/** Follows a document of one build with answers that are given, statement by statement, as a reader that knows no builds would. */
import type * as document from '../../language/src/document/types.js';

/** What is known beforehand of a way: the outcome of each test that is asked, and whether what is to be done can be done. */
export type Given = { readonly outcome: string } | { readonly canBeDone: boolean };

interface Frame {
    readonly owner: document.Tree | document.Procedure;
    readonly subject: string | undefined;
    readonly branches: readonly document.ResultBranch[];
}

/** Where a statement leads; undefined where the step goes on. */
type Next = { readonly to: string } | { readonly end: string } | undefined;

const mostSteps = 2000;

/** Everything that happens on the way, in words; the last is where it ends. */
export function followDocument(whole: document.TreeDocument, given: readonly Given[]): readonly string[] {
    return new Follower(whole, given).follow();
}

class Follower {
    private readonly told: string[] = [];
    private readonly frames: Frame[];
    private used = 0;

    constructor(
        private readonly whole: document.TreeDocument,
        private readonly given: readonly Given[],
    ) {
        this.frames = [{ owner: whole.tree, subject: undefined, branches: [] }];
    }

    follow(): readonly string[] {
        let next: Next = { to: this.whole.tree.steps[0]?.id ?? '' };
        for (let count = 0; count < mostSteps && next && 'to' in next; count += 1) next = this.goTo(next.to);
        return [...this.told, next && 'end' in next ? next.end : 'nowhere'];
    }

    private frame(): Frame {
        const frame = this.frames.at(-1);
        if (!frame) throw new Error('There is always the tree.');
        return frame;
    }

    private goTo(target: string): Next {
        const { owner, branches } = this.frame();
        const step = owner.steps.find(({ id }) => id === target);
        if (step) return this.doStep(step);
        if (this.frames.length === 1) {
            const isEnd = [...this.whole.tree.conclusions, ...this.whole.tree.referrals].some(
                ({ id }) => id === target,
            );
            return { end: isEnd ? `end ${target}` : 'nowhere' };
        }
        this.frames.pop();
        const branch =
            branches.find(({ results }) => results?.includes(target)) ?? branches.find(({ otherwise }) => otherwise);
        return branch ? { to: branch.to } : { end: 'nowhere' };
    }

    private doStep(step: document.Step): Next {
        this.told.push(`step ${this.frame().owner.id}.${step.id}`);
        for (const statement of step.statements) {
            const next = this.doStatement(statement);
            if (next) return next;
        }
        return { end: 'nowhere' };
    }

    private doStatement(statement: document.Statement): Next {
        switch (statement.type) {
            case 'do':
                return this.doAction(statement);
            case 'wait':
                return this.tell('wait');
            case 'gate':
            case 'restore':
                return this.tell(`${statement.type} ${statement.gate}`);
            case 'read':
                for (const test of statement.tests) this.tell(`read ${this.meant(test)}`);
                return undefined;
            case 'test':
            case 'confirm':
                return this.ask(statement);
            case 'follow':
                return this.enter(statement);
            case 'go':
                return { to: statement.to };
            case 'continue':
                return { end: `tree ${statement.tree}` };
            default:
                return undefined;
        }
    }

    private tell(words: string): undefined {
        this.told.push(words);
    }

    private next(): Given | undefined {
        return this.given[this.used++];
    }

    private doAction({ cannotBeDone }: document.Do): Next {
        const given = this.next();
        const canBeDone = given && 'canBeDone' in given && given.canBeDone;
        this.tell(canBeDone ? 'did' : 'could not do');
        if (canBeDone) return undefined;
        const to = cannotBeDone ?? this.frame().owner.cannotBeDone?.[0]?.to;
        return to === undefined ? { end: 'nowhere' } : { to };
    }

    private ask(asked: document.AskTest | document.ConfirmTest): Next {
        const given = this.next();
        const outcome = given && 'outcome' in given ? given.outcome : 'nothing';
        this.tell(`${asked.type} ${this.meant(asked.test)}: ${outcome}`);
        const { owner } = this.frame();
        const disagree =
            asked.type === 'confirm' && asked.othersDisagree && 'disagree' in owner ? owner.disagree : undefined;
        const branch =
            asked.branches.find(({ outcomes }) => outcomes?.includes(outcome)) ??
            asked.branches.find(({ otherwise }) => otherwise) ??
            disagree?.[0];
        return branch ? { to: branch.to } : { end: 'nowhere' };
    }

    private enter({ procedure, withPart, withTest, branches }: document.Follow): Next {
        this.tell(`follow ${procedure}`);
        const owner = this.whole.procedures.find(({ id }) => id === procedure);
        if (!owner) return { end: 'nowhere' };
        const named = withPart ?? withTest;
        const subject = named === undefined ? undefined : this.meant(named);
        this.frames.push({ owner, subject, branches });
        return { to: owner.steps[0]?.id ?? '' };
    }

    /** What a name means where `it` stands for something. */
    private meant(id: string): string {
        const { subject } = this.frame();
        if (subject === undefined) return id;
        return id === 'it' ? subject : id.replace(/^it\./, `${subject}.`);
    }
}
