/** Which tree is walked: by its name, alone in its workspace, or none that can be. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bell, cleanFiles, makeFolder, run, silent, wrongSilent } from './support.js';

describe('the tree', () => {
    test('may be named, be the only one of a file, or lie in other sources', async () => {
        const files = Object.fromEntries(Object.entries(cleanFiles).map(([path, text]) => [`world/${path}`, text]));
        const folder = makeFolder(files);
        const outputs = [
            await run(['walk', 'silent', '--answer', 'absent'], { folder: join(folder, 'world') }),
            await run(['walk', 'silent', 'world', '--answer', 'absent'], { folder }),
            await run(['walk', 'world/silent.fault', '--answer', 'absent'], { folder }),
        ].map(({ output }) => output);
        expect(outputs[0]).toContain('Conclusion flat-battery: The battery is flat');
        expect(new Set(outputs).size).toBe(1);
    });

    test.each([
        [[], '`walk` needs the name of a tree.'],
        [
            ['slient'],
            'There is no tree called `slient` in this folder.\nThere is a tree with a similar name: `silent`.',
        ],
        [['loud', 'bell.fault'], 'There is no tree called `loud` in these sources.'],
        [['bell.fault'], 'There is no tree in `bell.fault`.'],
        [['both.fault'], '`both.fault` holds several trees.\nGive the name of one: there are `one` and `two`.'],
        [['silent', 'nowhere'], '`nowhere` cannot be opened. There is no such file.'],
    ])('%j is not found', async (words, message) => {
        const both = `uses "bell.fault"\n${['one', 'two'].map(name => silent.replace('uses "bell.fault"', '').replace('tree silent', `tree ${name}`)).join('')}`;
        const folder = makeFolder({ ...cleanFiles, 'both.fault': both });
        const { status, messages } = await run(['walk', ...words], { folder });
        expect(messages).toContain(`halfsplit: ${message}\n`);
        expect(status).toBe(2);
    });

    test('with errors that keep it from being walked is refused, with the errors', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
        const { status, output, messages } = await run(['walk', 'silent', '--answer', 'absent'], { folder });
        expect({ status, output }).toEqual({ status: 1, output: '' });
        expect(messages).toContain('flat-batery');
        expect(messages).toMatch(/`silent` cannot be walked: \d+ errors? stands? in the way\.\n$/);
    });

    test('with other errors is walked, and the errors are counted', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': silent.replace('normal -> no-fault  ', '') });
        const { status, output, messages } = await run(['walk', 'silent', '--answer', 'normal'], { folder });
        expect(messages).toMatch(
            /^\d+ errors? stands? in what is walked, so it may be wrong; `halfsplit check` shows more\.\n$/,
        );
        expect(output).toContain('End: Nothing leads on from here.');
        expect(status).toBe(0);
    });

    test('cannot move the cursor, and keeps each text on one line', async () => {
        const text = bell.replace('"Does the bell ring?"', '"""\n    Does\n    the bell\u202E ring?\n  """');
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': text });
        const { output } = await run(['walk', 'silent', '--answer', 'absent'], { folder });
        expect(output).toContain('Test ring: Does the bell\\u{202E} ring?\n');
    });
});
