/** Walks the trees of texts, for the tests of the walk: texts in, walks out. */
import type { Crowds, RouteWalk } from '../../language/src/core/walk/walk-route.js';
import { type EquipmentWalks, walkEquipment } from '../../language/src/core/walk/walks.js';
import { readTexts, type Texts } from './read-texts.js';

/** The walks of the only equipment of the texts, which must be free of slips. */
export function walkTexts(texts: string | Texts): EquipmentWalks {
    const { model, findings } = readTexts(typeof texts === 'string' ? { 'example.fault': texts } : texts);
    const problems = [...model.files.keys()].flatMap(file => model.problems(file));
    const [finding] = findings;
    if (finding) throw new Error(`The text of the test is wrong: ${finding.message}`);
    if (problems[0]) throw new Error(`The text of the test has an unknown name: ${problems[0].reference.text}`);
    const [equipment, second] = [...model.files.values()].flatMap(({ equipment }) => equipment);
    if (!equipment || second) throw new Error('The texts of the test must have one equipment.');
    const walks = walkEquipment(equipment, model, { aborted: false });
    if (!walks) throw new Error('Nobody asked for the walk to stop, and still it did.');
    return walks;
}

/** The walk of the only tree of the texts, or of the one of this name. */
export function walkOf(texts: string | Texts, name?: string): RouteWalk {
    const found = walkTexts(texts).trees.filter(({ tree }) => name === undefined || tree.name.text === name);
    const walk = found.length === 1 ? found[0]?.walk : undefined;
    if (!walk) throw new Error(`The texts of the test have no single walked tree ${name ?? ''}.`);
    return walk;
}

/** Those who come to a step or an end of the tree. */
export function crowdsAt(name: string, { route, stations, ends }: RouteWalk): Crowds {
    const station = route.stations.find(({ step }) => step.name.text === name);
    const end = route.ends.find(({ written }) => written.name.text === name);
    const crowds = station ? stations[station.number] : ends[end?.number ?? -1];
    if (!crowds) throw new Error(`The tree has no step or end ${name}.`);
    return crowds;
}
