// Flows that feed each other in a circle.

import { defineRule } from '../../core/findings/rule.js';
import { placesOf } from '../../core/linking/names.js';
import type { Equipment, Flow } from '../../core/model/equipment.js';
import type { Model } from '../../core/model/model.js';
import { conditionsOf, searchBuilds } from '../../core/questions/builds.js';
import { findCircles, type Link } from '../../core/questions/circles.js';
import { chainOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'flows-feed-in-circle',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'fast',
    messages: {
        itself: 'Flow {name} feeds itself.',
        circle: 'These flows feed each other in a circle: {chain}.',
    },
    check(model, file, report) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const circle of circlesOf(equipment, model)) {
                const [first, ...others] = circle;
                if (!first) continue;
                const names = [...circle.map(link => link.from), first.from].map(({ name }) => quoteName(name.text));
                report(
                    others.length === 0 ? 'itself' : 'circle',
                    first.by.flow,
                    { name: quoteName(first.from.name.text), chain: chainOf(names) },
                    {
                        related: others.map(({ by, to }) => ({
                            file,
                            start: by.start,
                            end: by.end,
                            text: `feeds ${quoteName(to.name.text)}`,
                        })),
                        advice: 'Take out the `feeds` that goes back, or write what goes round as one flow.',
                    },
                );
            }
        }
    },
});

type Feed = Flow['feeds'][number];

function circlesOf(equipment: Equipment, model: Model): Link<Flow, Feed>[][] {
    const links = new Map(equipment.flows.map(from => [from, linksFrom(from, model)]));
    return findCircles(
        equipment.flows,
        flow => links.get(flow) ?? [],
        circle => isBuilt(circle, equipment, model),
    );
}

function linksFrom(from: Flow, model: Model): Link<Flow, Feed>[] {
    return from.feeds.flatMap(by => {
        const to = model.target(by.flow);
        return to?.sort === 'flow' ? [{ from, by, to }] : [];
    });
}

/** Whether one build has all flows of the circle, with the fed part in each. */
function isBuilt(circle: readonly Link<Flow, Feed>[], equipment: Equipment, model: Model): boolean {
    const written = circle.flatMap(({ from, by, to }) => [from.guard, by.guard, ...guardsOfPlace(by, to, model)]);
    const guards = conditionsOf(written, model, equipment);
    return guards !== undefined && searchBuilds(equipment, model, guards).sort === 'found';
}

/** The guard of the fed part's place, where it has only one place and that has a guard of its own. */
function guardsOfPlace({ part }: Feed, flow: Flow, model: Model): Flow['guard'][] {
    const fed = model.target(part);
    const places = placesOf(flow).filter(place => model.target(place.member) === fed);
    return places.length === 1 ? places.map(({ guard }) => guard) : [];
}
