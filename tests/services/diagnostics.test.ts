/** The client is told of findings as they come and go, in the changed file and in those that it matters to. */
import { DiagnosticSeverity, DiagnosticTag, type Diagnostic } from 'vscode-languageserver';
import { expect, test } from 'vitest';
import { defineRule, type Rule } from '../../language/src/core/findings/rule.js';
import { rules } from '../../language/src/rules/index.js';
import {
    fileOf,
    type Files,
    messageOf,
    openWorld as openWorldWithAll,
    type World,
    type WorldOptions,
} from './world.js';

// The point of these tests is when something is told, and not what all rules together have to say.
const few = rules.filter(({ code }) => ['unknown-name', 'branch-missing'].includes(code));

function openWorld(files: Files, options: WorldOptions = {}): Promise<World> {
    return openWorldWithAll(files, { rules: few, ...options });
}

/** Each finding of a file as `line:column code`. */
function tell(world: World, file: string): string[] {
    expect(world.failures).toEqual([]);
    return world
        .diagnosticsOf(file)
        .map(({ range: { start }, code }) => `${start.line + 1}:${start.character + 1} ${code}`);
}

const lamp = 'equipment lamp {\n  part bulb { fault dark }\n  test light { observe by eye  normal yes  dark no }\n}\n';
const tree = `uses "lamp.fault"
tree t of lamp {
  complaint light dark
  step a { test light { normal -> b  dark -> b } }
  conclude b { bulb }
}
`;

test('tells of the findings of every file when the editor starts', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree.replace('bulb', 'bulp') });
    expect(tell(world, 'tree.fault')).toEqual(['5:16 unknown-name']);
});

test('tells with the sentence, the mend, the places that belong to it and the edits', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree.replace('  dark -> b', '') });
    const finding = world.diagnosticsOf('tree.fault').find(({ code }) => code === 'branch-missing') as Diagnostic;
    expect(finding).toMatchObject({ source: 'halfsplit', severity: DiagnosticSeverity.Error });
    const [sentence, mend, example, ...rest] = messageOf(finding).split('\n');
    expect(sentence).toBe('`light` can answer `dark`, and no branch follows.');
    expect(mend).toBe('Add a branch for `dark`.');
    expect(example).toMatch(/^For example, .*step `a`, light: dark; no branch follows\.$/);
    expect(rest).toEqual([]);
    const related = finding.relatedInformation?.map(({ location, message }) => `${fileOf(location.uri)}: ${message}`);
    expect(related).toEqual(['lamp.fault: `dark` is declared here', 'tree.fault: 1. light: dark']);
    expect(finding.data).toMatchObject({
        version: 0,
        mends: [{ safety: 'placeholder', edits: [{ newText: '  dark -> ' }] }],
    });
});

test('takes a finding back when it is mended, and tells of the next', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree });
    await world.type('tree.fault', tree.replace('complaint light', 'complaint lihgt'));
    expect(tell(world, 'tree.fault')).toContain('3:13 unknown-name');
    await world.type('tree.fault', tree);
    expect(tell(world, 'tree.fault')).toEqual([]);
});

test('tells the other files of a change that matters to them', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree });
    await world.type('lamp.fault', lamp.replace('part bulb', 'part bulbs'));
    expect(tell(world, 'tree.fault')).toEqual(['5:16 unknown-name']);
    await world.type('lamp.fault', lamp);
    expect(tell(world, 'tree.fault')).toEqual([]);
});

test('follows changes through a file in between', async () => {
    const world = await openWorld({
        'tree.fault': tree.replace('lamp.fault', 'middle.fault'),
        'middle.fault': 'uses "lamp.fault"',
        'lamp.fault': lamp,
    });
    expect(tell(world, 'tree.fault')).toEqual([]);
    await world.type('middle.fault', '');
    expect(tell(world, 'tree.fault')).toContain('2:11 unknown-name');
});

test('moves the places in other files that belong to a finding', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree.replace('  dark -> b', '') });
    await world.type('lamp.fault', `\n\n${lamp}`);
    const [finding] = world.diagnosticsOf('tree.fault');
    expect(finding?.relatedInformation?.[0]?.location.range.start.line).toBe(4);
});

test('knows of a file that comes, changes and goes on the disk', async () => {
    const world = await openWorld({ 'tree.fault': tree });
    expect(tell(world, 'tree.fault').length).toBeGreaterThan(0);
    await world.save('lamp.fault', lamp);
    expect(tell(world, 'tree.fault')).toEqual([]);
    await world.save('lamp.fault', lamp.replace('test light', 'test lights'));
    expect(tell(world, 'tree.fault')).toContain('3:13 unknown-name');
    await world.save('lamp.fault', undefined);
    expect(tell(world, 'tree.fault')).toContain('2:11 unknown-name');
    expect(world.diagnosticsOf('lamp.fault')).toEqual([]);
});

test('goes by the text in the editor while a file is open, and by the disk when it is closed', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree });
    await world.type('lamp.fault', lamp.replace('part bulb', 'part bulbs'));
    await world.save('lamp.fault', lamp);
    expect(tell(world, 'tree.fault')).toEqual(['5:16 unknown-name']);
    await world.close('lamp.fault');
    expect(tell(world, 'tree.fault')).toEqual([]);
});

test('keeps the text of an open file that is deleted on the disk', async () => {
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree });
    await world.type('lamp.fault', lamp);
    await world.save('lamp.fault', undefined);
    expect(tell(world, 'tree.fault')).toEqual([]);
    await world.close('lamp.fault');
    expect(tell(world, 'tree.fault')).toContain('2:11 unknown-name');
});

test('knows of a whole folder that goes', async () => {
    const world = await openWorld({
        'shop/lamp.fault': lamp,
        'tree.fault': tree.replace('lamp.fault', 'shop/lamp.fault'),
    });
    world.disk.delete('shop/lamp.fault');
    await world.save('shop', undefined);
    expect(tell(world, 'tree.fault')).toContain('2:11 unknown-name');
});

test('does not read node_modules, hidden folders and other files', async () => {
    const wrong = 'tree t of nothing { }';
    const world = await openWorld({
        'node_modules/a.fault': wrong,
        '.git/b.fault': wrong,
        'c.txt': wrong,
        'out/d.fault': wrong,
    });
    expect(filesOf(world)).toEqual(['out/d.fault']);
});

test('reads a file in a folder that is left out when another one uses it', async () => {
    const world = await openWorld({
        'node_modules/parts/lamp.fault': lamp,
        'tree.fault': tree.replace('lamp.fault', 'node_modules/parts/lamp.fault'),
    });
    expect(tell(world, 'tree.fault')).toEqual([]);
});

function filesOf(world: World): string[] {
    const { all } = world.shared.workspace.LangiumDocuments;
    return all
        .map(({ uri }) => fileOf(uri.toString()))
        .toArray()
        .sort();
}

test('reads what an opened file uses, and what stands beside it, where there is no folder', async () => {
    const files = {
        'x/in/lamp.fault': lamp,
        'x/tree.fault': tree.replace('lamp.fault', 'in/lamp.fault'),
        'x/beside.fault': 'tree',
        'x/in/other.fault': 'tree',
        'y/far.fault': 'tree',
    };
    const world = await openWorld(files, { folders: [] });
    await world.type('x/tree.fault', files['x/tree.fault']);
    expect(tell(world, 'x/tree.fault')).toEqual([]);
    expect(filesOf(world)).toEqual(['x/beside.fault', 'x/in/lamp.fault', 'x/tree.fault']);
    await world.close('x/tree.fault');
    expect(filesOf(world)).toEqual([]);
});

test('takes a file that is opened alone into the workspace of the settings above it', async () => {
    const files = {
        'halfsplit.json': '{ "severities": { "long-sentence": "off" } }',
        'shop/lamp.fault': lamp,
        'trees/tree.fault': tree.replace('lamp.fault', '../shop/lamp.fault'),
    };
    const world = await openWorld(files, { folders: [] });
    await world.type('trees/tree.fault', files['trees/tree.fault']);
    expect(tell(world, 'trees/tree.fault')).toEqual([]);
    expect(filesOf(world)).toEqual(['shop/lamp.fault', 'trees/tree.fault']);
});

test('takes a folder below a settings file for a part of its workspace, and tells only of what is in the folder', async () => {
    const files = {
        'halfsplit.json': '{}',
        'shop/lamp.fault': lamp,
        'shop/wrong.fault': 'tree t of nothing { }',
        'trees/tree.fault': tree.replace('lamp.fault', '../shop/lamp.fault').replace('bulb', 'bulp'),
    };
    const world = await openWorld(files, { folders: ['trees'] });
    expect(tell(world, 'trees/tree.fault')).toEqual(['5:16 unknown-name']);
    expect(tell(world, 'shop/wrong.fault')).toEqual([]);
    await world.type('shop/wrong.fault', files['shop/wrong.fault']);
    expect(tell(world, 'shop/wrong.fault')).toEqual(['1:11 unknown-name']);
    await world.close('shop/wrong.fault');
    expect(tell(world, 'shop/wrong.fault')).toEqual([]);
});

test('does not count settings below other settings', async () => {
    const world = await openWorld({
        'halfsplit.json': '{}',
        'lamp.fault': lamp,
        'in/halfsplit.json': '{}',
        'in/tree.fault': tree.replace('lamp.fault', '../lamp.fault'),
    });
    expect(tell(world, 'in/tree.fault')).toEqual([]);
});

test('takes each workspace folder for itself', async () => {
    const world = await openWorld(
        { 'one/lamp.fault': lamp, 'one/tree.fault': tree, 'two/tree.fault': tree },
        { folders: ['one', 'two'] },
    );
    expect(tell(world, 'one/tree.fault')).toEqual([]);
    expect(tell(world, 'two/tree.fault')).toContain('2:11 unknown-name');
});

test('takes a folder with settings for a workspace of its own, as the command line does', async () => {
    const world = await openWorld({
        'in/halfsplit.json': '{}',
        'in/tree.fault': tree.replace('"', '"../'),
        'lamp.fault': lamp,
    });
    expect(tell(world, 'in/tree.fault')).toContain('2:11 unknown-name');
    await world.save('in/halfsplit.json', undefined);
    await world.settle();
    expect(tell(world, 'in/tree.fault')).toEqual([]);
});

const slow = defineRule({
    code: 'slow-rule',
    since: '0.1.0',
    severity: 'warning',
    group: 'wording',
    cost: 'slow',
    messages: { found: 'A step.' },
    check: (model, file, report) => {
        for (const step of model.files.get(file)?.trees.flatMap(({ steps }) => steps) ?? []) {
            report('found', step.name, {}, { unnecessary: true });
        }
    },
});

function worldWith(rule: Rule, text: string): Promise<World> {
    return openWorld({ 'a.fault': text }, { rules: [rule] });
}

test('asks slow rules when typing pauses, and keeps their findings meanwhile, at their places', async () => {
    const world = await worldWith(slow, 'tree t {\n  step a\n  step b\n}');
    expect(tell(world, 'a.fault')).toEqual([]);
    await world.settle();
    expect(tell(world, 'a.fault')).toEqual(['2:8 slow-rule', '3:8 slow-rule']);
    expect(world.diagnosticsOf('a.fault')[0]?.tags).toEqual([DiagnosticTag.Unnecessary]);
    await world.type('a.fault', 'tree t {\n\n  step a\n  step b\n}');
    expect(tell(world, 'a.fault')).toEqual(['3:8 slow-rule', '4:8 slow-rule']);
    await world.type('a.fault', 'tree t {\n\n  step xa\n  step b\n  step c\n}');
    expect(tell(world, 'a.fault')).toEqual([]);
    await world.settle();
    expect(tell(world, 'a.fault')).toEqual(['3:8 slow-rule', '4:8 slow-rule', '5:8 slow-rule']);
});

test('asks again, when typing pauses, about a file that the changed one uses', async () => {
    const unused = defineRule({
        code: 'unused-part',
        since: '0.1.0',
        severity: 'warning',
        group: 'names',
        cost: 'fast',
        messages: { found: 'Nobody names it.' },
        check: (model, file, report) => {
            for (const part of model.files.get(file)?.equipment.flatMap(({ parts }) => parts) ?? []) {
                if (!model.isReferred(part)) report('found', part.name);
            }
        },
    });
    const world = await openWorld({ 'lamp.fault': lamp, 'tree.fault': tree }, { rules: [unused] });
    expect(tell(world, 'lamp.fault')).toEqual([]);
    await world.type('tree.fault', tree.replace('bulb', 'bulp'));
    await world.settle();
    expect(tell(world, 'lamp.fault')).toEqual(['2:8 unused-part']);
});

test('a rule that fails is one finding, and the others go on', async () => {
    const broken = {
        ...slow,
        cost: 'fast',
        check: () => {
            throw new Error('out of order');
        },
    } as Rule;
    const world = await openWorld(
        { 'a.fault': 'tree t { step a }' },
        { rules: [broken, { ...slow, cost: 'fast', code: 'good-rule' }] },
    );
    expect(tell(world, 'a.fault')).toEqual(['1:1 rule-failed', '1:15 good-rule']);
});

test('looks whether pictures are there, and again when one comes', async () => {
    const picture = 'tree t { step a { picture "a.svg" "it" } }';
    const missing = defineRule({
        code: 'gone',
        since: '0.1.0',
        severity: 'warning',
        group: 'text',
        cost: 'fast',
        messages: { found: 'It is not there.' },
        check: (model, file, report) => {
            if (model.presence('a.svg') === 'missing') report('found', { file, start: 0, end: 4 });
        },
    });
    const world = await worldWith(missing, picture);
    expect(tell(world, 'a.fault')).toEqual(['1:1 gone']);
    await world.save('a.svg', '<svg/>');
    await world.settle();
    expect(tell(world, 'a.fault')).toEqual([]);
});

test('goes by the settings of the workspace, and tells what is wrong in them', async () => {
    const named = { ...slow, cost: 'fast', code: 'long-sentence' } as Rule;
    const world = await openWorld(
        { 'a.fault': 'tree t { step a }', 'halfsplit.json': '{ "severities": { "long-sentence": "off" } }' },
        { rules: [named] },
    );
    expect(tell(world, 'a.fault')).toEqual([]);
    await world.save('halfsplit.json', '{ "severities": { "long-sentence": "information" } }');
    await world.settle();
    expect(world.diagnosticsOf('a.fault')[0]?.severity).toBe(DiagnosticSeverity.Information);
    await world.save('halfsplit.json', '{ "severities": ');
    await world.settle();
    expect(tell(world, 'halfsplit.json')).toEqual(['1:17 settings-invalid']);
    await world.save('halfsplit.json', '{}');
    await world.settle();
    expect(tell(world, 'halfsplit.json')).toEqual([]);
});

test('tells nothing of a text that has changed meanwhile', async () => {
    const world = await openWorld({ 'a.fault': 'tree t of nothing { }' });
    world.hear('a.fault', '\ntree t of nothing { }');
    await world.type('a.fault', '\n\ntree t of nothing { }');
    expect(tell(world, 'a.fault')).toEqual(['3:11 unknown-name']);
});
