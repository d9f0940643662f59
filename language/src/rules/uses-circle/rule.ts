// Files that use each other in a circle.

import { defineRule } from '../../core/findings/rule.js';
import { relativePath, resolvePath } from '../../core/linking/paths.js';
import type { FileModel, Uses } from '../../core/model/file.js';
import type { Model } from '../../core/model/model.js';
import { findCircles, type Link } from '../../core/questions/circles.js';
import { oncePerModel } from '../../core/questions/remember.js';
import { chainOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'uses-circle',
    since: '0.1.0',
    severity: 'warning',
    group: 'names',
    cost: 'fast',
    messages: {
        circle: 'These files use each other in a circle: {chain}.',
        itself: 'This file uses itself.',
    },
    check(model, file, report) {
        for (const circle of circlesOf(model)) {
            const [first, ...others] = circle;
            if (first?.from.file !== file) continue;
            if (others.length === 0) {
                const { start, end } = first.by;
                const edits = [{ file, start, end, text: '' }];
                report(
                    'itself',
                    first.by.path,
                    {},
                    { mends: [{ title: 'Take this `uses` out', safety: 'safe', edits }] },
                );
                continue;
            }
            const names = [...circle.map(link => link.from), first.from].map(one => relativePath(file, one.file));
            report(
                'circle',
                first.by.path,
                { chain: chainOf(names.map(quoteName)) },
                {
                    related: others.map(link => ({
                        file: link.by.path.file,
                        start: link.by.path.start,
                        end: link.by.path.end,
                        text: `uses ${quoteName(relativePath(file, link.to.file))}`,
                    })),
                    advice: 'Move what several of them need into a file of its own, and use that file.',
                },
            );
        }
    },
});

const circlesOf = oncePerModel((model: Model) => {
    const links = new Map([...model.files.values()].map(from => [from, linksFrom(from, model)]));
    return findCircles([...links.keys()], file => links.get(file) ?? []);
});

function linksFrom(from: FileModel, model: Model): Link<FileModel, Uses>[] {
    return from.uses.flatMap(by => {
        const path = resolvePath(from.file, by.path.value);
        const to = path === undefined ? undefined : model.files.get(path);
        return to ? [{ from, by, to }] : [];
    });
}
