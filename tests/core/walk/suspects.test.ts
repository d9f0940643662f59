/** Who is suspected at a place of a tree, and how likely it is. */
import { describe, expect, test } from 'vitest';
import { suspectsAt } from '../../../language/src/core/walk/suspects.js';
import type { RouteWalk } from '../../../language/src/core/walk/walk-route.js';
import { readFolder } from '../../support/read-folder.js';
import { crowdsAt, walkOf, walkTexts } from '../../support/walk-texts.js';

/** A lamp on a cable: the lamp fails three times as often as the cable, and more often in some builds. */
const lamp = `equipment lamp "Lamp" {
  option use "Use" { indoors share 75 %  outdoors share 25 % }
  part cable "Cable" { fault broken rate 1 per 1e6 h }
  part bulb "Bulb" {
    fault burnt {
      rate 2 per 1e6 h for indoors
      rate 6 per 1e6 h for outdoors
    }
  }
  part hood "Hood" { fault dusty rate 5 per 1e6 h }
  flow current: cable -> [voltage] -> bulb -> [light]
  test voltage { observe by eye normal absent shows stopped }
  test light { observe by eye normal absent shows stopped }
}
`;

const dark = (complaint: string) => `tree dark of lamp {
  complaint ${complaint}
  step look { test light { normal -> fine  absent -> measure } }
  step measure { test voltage { normal -> bad-bulb  absent -> bad-cable } }
  conclude bad-bulb { bulb.burnt }
  conclude bad-cable { cable.broken }
  refer fine because "it shines"
}
`;

/** The suspects at a place as `name chance`, and how many of those who arrive come there. */
function suspected(walk: RouteWalk, place: string, within?: number): [chance: string, ...suspects: string[]] {
    const { suspects, chance } = suspectsAt(walk, crowdsAt(place, walk), within);
    return [chance.toFixed(6), ...suspects.map(one => `${one.fault?.name ?? 'healthy'} ${one.chance.toFixed(6)}`)];
}

describe('the chance of a suspect', () => {
    test('is in proportion to its rate, averaged over the builds', () => {
        const walk = walkOf(lamp + dark('light absent'));
        // 1 for the cable; 0.75 times 2 and 0.25 times 6 for the bulb. The dusty hood does not come.
        expect(suspected(walk, 'measure')).toEqual(['1.000000', 'bulb.burnt 0.750000', 'cable.broken 0.250000']);
        expect(suspected(walk, 'bad-bulb')).toEqual(['0.750000', 'bulb.burnt 1.000000']);
        expect(suspected(walk, 'bad-cable')).toEqual(['0.250000', 'cable.broken 1.000000']);
    });

    test('of the healthy unit is the share of mistaken complaints on arrival', () => {
        const walk = walkOf(lamp + dark('light absent mistaken 20 %'));
        expect(suspected(walk, 'look')).toEqual([
            '1.000000',
            'bulb.burnt 0.600000',
            'cable.broken 0.200000',
            'healthy 0.200000',
        ]);
        expect(suspected(walk, 'fine')).toEqual(['0.200000', 'healthy 1.000000']);
        expect(suspected(walk, 'measure')).toEqual(['0.800000', 'bulb.burnt 0.750000', 'cable.broken 0.250000']);
    });

    test('of the healthy unit follows the largest share that is said for the builds that count', () => {
        const complaints = 'light absent mistaken 5 % for indoors\n  complaint light absent mistaken 10 % for outdoors';
        const walk = walkOf(lamp + dark(complaints));
        const { sets, variables } = walk.around.space;
        const [use = -1] = variables.options.values();
        expect(suspected(walk, 'fine')[0]).toBe('0.100000');
        expect(suspected(walk, 'fine', sets.is(use, 0))[0]).toBe('0.050000');
        expect(suspected(walk, 'fine', sets.is(use, 1))[0]).toBe('0.100000');
    });

    test('of the healthy unit goes down with the builds of it that are not here', () => {
        const split = dark('light absent mistaken 20 %').replace(
            'normal -> fine',
            'normal -> fine for outdoors  normal -> also-fine for indoors',
        );
        const walk = walkOf(
            lamp + split.replace('  refer fine', '  refer also-fine because "it shines"\n  refer fine'),
        );
        expect(suspected(walk, 'fine')).toEqual(['0.050000', 'healthy 1.000000']);
        expect(suspected(walk, 'also-fine')).toEqual(['0.150000', 'healthy 1.000000']);
    });

    test('counts only the builds that are asked about, on arrival too', () => {
        const walk = walkOf(lamp + dark('light absent mistaken 20 %'));
        const { sets, variables } = walk.around.space;
        const [use = -1] = variables.options.values();
        expect(suspected(walk, 'look', sets.is(use, 1))).toEqual([
            '1.000000',
            'bulb.burnt 0.685714',
            'healthy 0.200000',
            'cable.broken 0.114286',
        ]);
        expect(suspected(walk, 'bad-cable', sets.is(use, 1))).toEqual(['0.114286', 'cable.broken 1.000000']);
    });
});

describe('worlds that come in several ways', () => {
    /** The contact may show or not; whoever polishes it comes to the same step as whoever does not, and to no other end. */
    const loose = `equipment radio "Radio" {
  condition knob { off turned }
  part contact "Contact" { fault loose comes and goes rate 3 per 1e6 h }
  part speaker "Speaker" { fault torn rate 1 per 1e6 h }
  flow sound: contact -> speaker -> [tone]
  test tone { observe by ear normal absent shows stopped }
}
tree silent of radio {
  complaint tone absent
  step listen { test tone { normal -> polish  absent -> turn } }
  step polish { do "Polish it." clears contact.loose go again }
  step turn { do "Turn the knob." sets knob turned go again }
  step again { test tone { normal -> bad-contact  absent -> bad-speaker } }
  conclude bad-contact { contact.loose }
  conclude bad-speaker { speaker.torn, contact.loose }
}
`;

    test('count once, whatever has become of their conditions and faults', () => {
        const walk = walkOf(loose);
        expect(crowdsAt('again', walk).size).toBeGreaterThan(2);
        expect(suspected(walk, 'again')).toEqual([
            '1.000000',
            'contact.loose 0.750000',
            'speaker.torn 0.250000',
            'healthy 0.000000',
        ]);
    });

    test('count at every place to which they can come', () => {
        const walk = walkOf(loose);
        expect(suspected(walk, 'polish')).toEqual(['0.750000', 'contact.loose 1.000000', 'healthy 0.000000']);
        expect(suspected(walk, 'turn')).toEqual(['1.000000', 'contact.loose 0.750000', 'speaker.torn 0.250000']);
    });
});

describe('at the edges', () => {
    test('equally likely suspects stand in the order of the text, the healthy unit last', () => {
        const even = lamp
            .replace('rate 1 per', 'rate 3 per')
            .replace('rate 2 per', 'rate 3 per')
            .replace('rate 6 per', 'rate 3 per');
        const walk = walkOf(even + dark('light absent mistaken 100 / 3 %').replace('100 / 3', '33.333333333333333'));
        const { suspects } = suspectsAt(walk, crowdsAt('look', walk));
        expect(suspects.map(({ fault }) => fault?.name)).toEqual(['cable.broken', 'bulb.burnt', undefined]);
        for (const { chance } of suspects) expect(chance).toBeCloseTo(1 / 3, 12);
    });

    test('where nobody comes there are no suspects', () => {
        const walk = walkOf(lamp + dark('light absent'));
        expect(suspectsAt(walk, new Map())).toEqual({ suspects: [], chance: 0 });
    });

    test('where only the healthy unit comes it is the only suspect, though nobody counts on it', () => {
        const walk = walkOf(lamp + dark('light absent'));
        expect(suspected(walk, 'fine')).toEqual(['0.000000', 'healthy 1.000000']);
    });

    test('where every complaint is mistaken only the healthy unit is likely', () => {
        const walk = walkOf(lamp + dark('light absent mistaken 100 %'));
        expect(suspected(walk, 'look')).toEqual([
            '1.000000',
            'healthy 1.000000',
            'cable.broken 0.000000',
            'bulb.burnt 0.000000',
        ]);
    });

    test('suspects that never come are equally likely', () => {
        const never = lamp.replaceAll(/rate \d per 1e6 h/g, 'rate 0 per 1e6 h');
        const walk = walkOf(never + dark('light absent'));
        expect(suspected(walk, 'measure')).toEqual(['0.000000', 'cable.broken 0.500000', 'bulb.burnt 0.500000']);
    });
});

test('in the example each who arrives comes to exactly one end, so the chances of the ends add to 1', () => {
    const texts = Object.entries(readFolder('examples/dust-extractor')).filter(([file]) => file.endsWith('.fault'));
    for (const { walk } of walkTexts(Object.fromEntries(texts)).trees) {
        if (!walk) throw new Error('A tree of the example was not walked.');
        const handedOn = [...walk.handedOver.values()].map(
            crowds => new Map(crowds.map(({ presence, set }) => [presence.number, set])),
        );
        const places = [...walk.ends, ...handedOn].map(crowds => suspectsAt(walk, crowds));
        expect(places.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
        for (const { suspects } of places) {
            const sum = suspects.reduce((all, { chance }) => all + chance, 0);
            expect(sum).toBeCloseTo(suspects.length === 0 ? 0 : 1, 12);
        }
    }
});
