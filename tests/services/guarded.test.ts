/** A feature that fails gives no answer, and the server goes on. */
import { OperationCancelled } from 'langium';
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { expect, test } from 'vitest';
import { guarded } from '../../language/src/services/guarded.js';
import { openWorld } from './world.js';

const failing = (problem: unknown) => ({
    atOnce: (): string => {
        throw problem;
    },
    later: async (): Promise<string> => {
        throw problem;
    },
});

test('an exception is logged with the feature, and the answer is empty', async () => {
    const failures: string[] = [];
    const log = { failure: (feature: string, problem: unknown) => failures.push(`${feature}: ${String(problem)}`) };
    const service = guarded('Hover', failing(new Error('out of order')), log);
    expect(service.atOnce()).toBeUndefined();
    expect(await service.later()).toBeUndefined();
    expect(failures).toEqual(['Hover: Error: out of order', 'Hover: Error: out of order']);
});

test.each([
    ['a cancelled request', OperationCancelled],
    ['a refusal that the writer is to read', new ResponseError(LSPErrorCodes.RequestFailed, 'no')],
])('%s goes through', async (_, problem) => {
    const log = { failure: () => expect.unreachable() };
    const service = guarded('Rename', failing(problem), log);
    expect(() => service.atOnce()).toThrow();
    await expect(service.later()).rejects.toBe(problem);
});

test('every feature of the server is guarded', async () => {
    const world = await openWorld({ 'a.fault': 'tree t' });
    const { lsp } = world.fault;
    const features = Object.entries(lsp);
    expect(features.length).toBeGreaterThanOrEqual(10);
    const broken = new Proxy(
        {},
        {
            get: () => {
                throw new Error('broken');
            },
        },
    );
    for (const [name, feature] of features) {
        const [method] = Object.getOwnPropertyNames(Object.getPrototypeOf(feature)).filter(
            one => /^(get|find|rename|format)/.test(one) && one !== 'formatOnTypeOptions',
        );
        const call = (feature as unknown as Record<string, (...args: unknown[]) => unknown>)[method ?? ''];
        expect(await call?.(broken, broken), name).toBeUndefined();
    }
    expect(world.failures.length).toBe(features.length);
});
