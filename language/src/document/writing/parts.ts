// Writes parts and supplies with their faults; what a part has from its kind is written out with it.

import type * as model from '../../core/model/equipment.js';
import type { GuardedFault } from '../../core/model/trees.js';
import type * as document from '../types.js';
import { writeOptionalQuantity, writeQuantity } from './amounts.js';
import { allGuards, writeGuard, writeOptionalState } from './guards.js';
import { faultId, ownedFaults, withKind, writeFaultIds, writeTestId } from './references.js';
import { writeLocations, writeRemarks, writeRepair, writeZones } from './remarks.js';
import {
    type Fields,
    find,
    made,
    type PartWithKind,
    present,
    some,
    writeId,
    writeIds,
    writeOptionalText,
    type Writer,
} from './writer.js';

export function writePart(writer: Writer, part: model.Part): document.Part {
    const owner = withKind(writer, part);
    return made<document.Part>({
        id: part.name.text,
        title: writeOptionalText(writer, part.title),
        kind: part.kind && writeId(writer, part.kind),
        ...writeCommon(writer, owner),
        guard: writeGuard(writer, part),
    });
}

export function writeSupply(writer: Writer, supply: model.Supply): document.Supply {
    return made<document.Supply>({
        id: supply.name.text,
        title: writeOptionalText(writer, supply.title),
        carries: supply.carries && writeId(writer, supply.carries),
        ...writeCommon(writer, { part: supply, kind: undefined }),
        guard: writeGuard(writer, supply),
    });
}

/** The repairs of a part: its own, else those of its kind. */
export function repairsOf({ part, kind }: PartWithKind): readonly model.Repair[] {
    return part.repairs.length > 0 ? part.repairs : (kind?.repairs ?? []);
}

/** The zones of a part: its own, else those of its kind. */
export function zonesOf({ part, kind }: PartWithKind): readonly model.InZone[] {
    return part.zones.length > 0 ? part.zones : (kind?.zones ?? []);
}

/** The guard of a fault or test of a part, together with the guard of the kind where it comes from there. */
export function guardOfOwned(
    writer: Writer,
    { kind }: PartWithKind,
    owned: model.Fault | model.Kind['tests'][number],
): document.Guard | undefined {
    const inherited = kind && [...kind.faults, ...kind.tests].includes(owned);
    return allGuards(inherited ? writeGuard(writer, kind) : undefined, writeGuard(writer, owned));
}

/** The faults that a reference names, each with its guard; a part alone means all of its faults. */
export function writeGuardedFaults(writer: Writer, guarded: GuardedFault): readonly document.GuardedFault[] {
    const guard = writeGuard(writer, guarded);
    return writeFaultIds(writer, guarded.fault).map(fault => made<document.GuardedFault>({ fault, guard }));
}

type Common = Omit<document.Part, 'id' | 'title' | 'kind' | 'guard'>;

function writeCommon(outer: Writer, owner: PartWithKind): Fields<Common> {
    const { part, kind } = owner;
    const writer: Writer = { ...outer, within: owner };
    const locations = part.locations.length > 0 ? part.locations : (kind?.locations ?? []);
    return {
        protects: some(
            [...part.protects, ...(kind?.protects ?? [])].map(protects =>
                made<document.Protects>({
                    flows: writeIds(writer, protects.flows),
                    guard: writeGuard(writer, protects),
                }),
            ),
        ),
        zones: writeZones(writer, zonesOf(owner)),
        locations: writeLocations(writer, locations),
        faults: ownedFaults(owner).map(fault => writeFault(writer, owner, fault)),
        repairs: some(repairsOf(owner).map(repair => writeRepair(writer, repair))),
        ...writeRemarks(writer, {
            remarks: [...part.remarks, ...(kind?.remarks ?? [])],
            safety: [...part.safety, ...(kind?.safety ?? [])],
        }),
    };
}

function writeFault(writer: Writer, owner: PartWithKind, fault: model.Fault): document.Fault {
    return made<document.Fault>({
        id: faultId(owner, fault),
        title: writeOptionalText(writer, fault.title),
        effects:
            fault.effects.length === 0
                ? [{ effect: 'stops' }]
                : fault.effects.map(effect =>
                      made<document.Effect>({ effect: effect.effect, guard: writeGuard(writer, effect) }),
                  ),
        rates: some(present(fault.rates.map(rate => writeRate(writer, rate)))),
        places: some(
            fault.places.map(at =>
                made<document.FaultPlaces>({
                    at: at.places.map(place => writePlace(writer, place)),
                    guard: writeGuard(writer, at),
                }),
            ),
        ),
        intermittent: some(
            fault.intermittent.map(each =>
                made<document.Intermittent>({
                    unless: writeOptionalState(writer, each.unless),
                    guard: writeGuard(writer, each),
                }),
            ),
        ),
        makes: some(fault.makes.map(makes => writeMakes(writer, makes))),
        causes: some(fault.causes.map(causes => writeCauses(writer, causes))),
        repairs: some(fault.repairs.map(repair => writeRepair(writer, repair))),
        ...writeRemarks(writer, fault),
        guard: guardOfOwned(writer, owner, fault),
    });
}

function writeRate(writer: Writer, rate: model.Rate): document.Rate | undefined {
    const guard = writeGuard(writer, rate);
    if (rate.onlyWhenCaused) return made<document.RateWhenCaused>({ onlyWhenCaused: true, guard });
    const amount = rate.amount && writeQuantity(writer, rate.amount);
    const per = rate.per && writeQuantity(writer, rate.per);
    return amount && per && made<document.RateOverDuty>({ amount, per, guard });
}

function writePlace(writer: Writer, place: model.Fault['places'][number]['places'][number]): document.PlaceOrFlow {
    const target = find(writer, place);
    return target?.sort === 'flow' ? { flow: place.text } : { place: place.text };
}

function writeMakes(writer: Writer, makes: model.Makes): document.Makes {
    return made<document.Makes>({
        test: writeTestId(writer, makes.test),
        outcomes: writeIds(writer, makes.outcomes),
        when: writeOptionalState(writer, makes.when),
        unless: writeOptionalState(writer, makes.unless),
        guard: writeGuard(writer, makes),
    });
}

function writeCauses(writer: Writer, causes: model.Causes): document.Causes {
    return made<document.Causes>({
        faults: causes.faults.flatMap(guarded => writeGuardedFaults(writer, guarded)),
        after: writeOptionalQuantity(writer, causes.after),
    });
}
