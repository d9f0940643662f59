// Makes large invented trees for measuring the walk: honest ones, which isolate two hundred faults in many builds.
//
// The tree halves the stands along the line, then follows the circuits of one stand. Steps that only prepare a test make
// the ways longer until the tree has as many steps as are wanted; what they do and for which builds they are turns in a circle.

import type { GeneratedFile } from './generate-workspace.js';
import { featuresOf, standsOfSorter, twoDigits, writeSorter } from './invented-sorter.js';

export interface LargeTreeSize {
    /** How many steps the tree has. */
    readonly steps: number;
    /** How many options of two choices the equipment has: at least 5. */
    readonly options: number;
    /** Changes one step in the middle of the tree, as an author who edits it does. */
    readonly edited?: boolean;
}

/** The equipment, with its procedures. */
export const sorterFile = 'sorter.fault';

/** The tree. */
export const boxesFile = 'no-boxes.fault';

/** The equipment in one file and the tree in another; the same size gives the same text every time. */
export function generateLargeTree({ steps, options, edited = false }: LargeTreeSize): readonly GeneratedFile[] {
    const stands = standsOfSorter.length;
    const fillers = steps - stepsWithoutFillers;
    if (fillers < 0) throw new RangeError(`The tree has at least ${stepsWithoutFillers} steps.`);
    const written = standsOfSorter.flatMap((stand, index) => {
        const count = Math.floor(((index + 1) * fillers) / stands) - Math.floor((index * fillers) / stands);
        return writeStand(stand, options, count, edited && stand === stands / 2);
    });
    const lines = [
        `// No boxes leave the sorting line. The line, its parts and every figure are invented.`,
        `uses "${sorterFile}"`,
        '',
        'tree no-boxes "No boxes leave the line" of sorter {',
        ...writeStart(),
        ...writeHalves(1, stands),
        ...written,
        '}',
        '',
    ];
    return [
        { path: sorterFile, text: writeSorter(options) },
        { path: boxesFile, text: lines.join('\n') },
    ];
}

const stepsOfStand = 14;
const stepsWithoutFillers = 2 + standsOfSorter.length - 1 + standsOfSorter.length * stepsOfStand;

function writeStart(): readonly string[] {
    const last = standsOfSorter.length;
    return `
  complaint moves-${twoDigits(last)} absent mistaken 5 %
  disagree -> service-desk
  cannot be read -> service-desk
  cannot be done -> service-desk
  still wrong -> run-line
  note "Work at the cabinet is for people with the licence that your country asks for."

  step run-line "Run the line" {
    warning about turning "The belts start at once. Keep hands and clothing away."
    do "Give the run command at the desk." sets command run takes 1 min
    test moves-${twoDigits(last)} { normal -> leave-stopped  absent -> ${halfStep(1, last)} }
  }
  step leave-stopped "Stop the line" {
    do "Stop the line at the desk." sets command stop takes 1 min
    go no-fault-found
  }
  refer no-fault-found "Tell the shift leader" because "the line carries its boxes"
  refer service-desk "Ask the service desk" because "a reading could not be taken or does not agree" {
    warning "The line may run, covers may be off, and the lockout may be closed. Tell those who take over."
    leaves gate lockout closed
    leaves cabinet-door open
    leaves command run
    leaves cover removed
    leaves lid open
    leaves panel on
  }`
        .split('\n')
        .slice(1);
}

// The fault is in one of the stands from `first` to `last`; the step asks the belt in the middle.
function halfStep(first: number, last: number): string {
    return first === last ? `s${twoDigits(first)}-motor` : `belts-${twoDigits(first)}-to-${twoDigits(last)}`;
}

function writeHalves(first: number, last: number): readonly string[] {
    if (first === last) return [];
    const middle = Math.floor((first + last) / 2);
    const s = twoDigits(middle);
    return [
        `  step ${halfStep(first, last)} "Look at belt ${s}" {`,
        `    test moves-${s} { normal -> ${halfStep(middle + 1, last)}  absent -> ${halfStep(first, middle)} }`,
        '  }',
        ...writeHalves(first, middle),
        ...writeHalves(middle + 1, last),
    ];
}

function writeStand(stand: number, options: number, fillers: number, edited: boolean): readonly string[] {
    const s = twoDigits(stand);
    const [a, b] = featuresOf(stand, options);
    const [before, loads] = [Math.ceil(fillers / 2), Math.ceil(fillers / 4)];
    const writing: Writing = { stand, features: featuresOf(stand, options) };
    const ready = writeFillers(`s${s}-ready`, `s${s}-coil`, before, writing, 0);
    const load = writeFillers(`s${s}-behind`, `s${s}-load`, loads, writing, 2);
    const cold = writeFillers(`s${s}-cold`, `s${s}-winding`, fillers - before - loads, writing, 3);
    const note = edited ? '\n    note "Look at the lamp beside the door first."' : '';
    return `
  step s${s}-motor "Listen to the motor M${s}" {
    test motor-turns-${s} { normal -> s${s}-stop  absent -> s${s}-way-in }
  }
  step s${s}-stop "Stop the line" {
    do "Stop the line at the desk." sets command stop takes 1 min
    go s${s}-bad-belt
  }
  step s${s}-way-in "Come to the cabinet" {${note}
    go s${s}-cover for with-${a}
    go s${s}-lid for without-${a}
  }
  step s${s}-cover "Take off the cover" for with-${a} {
    gate look-in
    do "Take off the cover of the bay." sets cover removed takes 2 min
    go ${ready.first}
  }
  step s${s}-lid "Open the desk" for without-${a} {
    do "Open the lid of the desk." sets lid open takes 1 min
    go ${ready.first}
  }
${ready.text}  step s${s}-coil "Measure at the coil of K${s}" {
    gate live-test
    do "Open the cabinet." sets cabinet-door open takes 1 min
    test coil-voltage-${s} { normal -> ${load.first}  absent -> s${s}-control }
  }
  step s${s}-control "Measure after the fuse F${s}" {
    gate live-test
    test control-voltage-${s} {
      normal -> s${s}-shut-switch for with-${a}
      normal -> s${s}-shut-sensor for without-${a}
      absent -> s${s}-fuse
    }
  }
  step s${s}-shut-switch "Shut the cabinet" for with-${a} {
    gate live-test
    do "Shut the cabinet and fit the cover." sets cabinet-door shut and cover fitted takes 2 min
    go s${s}-bad-switch
  }
  step s${s}-shut-sensor "Shut the cabinet" for without-${a} {
    gate live-test
    do "Shut the cabinet and the lid." sets cabinet-door shut and lid shut takes 2 min
    go s${s}-bad-sensor
  }
  step s${s}-fuse "Find out why the fuse F${s} has blown" {
    gate lockout
    do "Shut the lid of the desk." sets lid shut takes 1 min
    follow relay-check with relay-${s} { good -> s${s}-bad-fuse  bad -> s${s}-bad-coil }
  }
${load.text}  step s${s}-load "Measure after the relay K${s}" {
    gate live-test
    test motor-voltage-${s} { normal -> ${cold.first}  absent -> s${s}-shut-relay  low -> service-desk }
  }
  step s${s}-shut-relay "Shut the cabinet" {
    gate live-test
    do "Shut the cabinet." sets cabinet-door shut takes 1 min
    go s${s}-bad-relay
  }
${cold.text}  step s${s}-winding "Measure the winding of M${s}" {
    caution about hot-motors "The motor is hot. Do not touch it before it has cooled."
    gate lockout
    do "Shut the cabinet." sets cabinet-door shut takes 1 min
    wait 30 min until hot-motors safe "Let the motor cool."
    test winding-${s} { normal, odd -> s${s}-shaft  open -> s${s}-bad-winding }
  }
  step s${s}-shaft "Turn the shaft of M${s} by hand" {
    test shaft-${s} {
      normal -> s${s}-bad-overload for with-${b}
      normal -> service-desk for without-${b}
      stuck -> s${s}-bad-bearing
    }
  }

  conclude s${s}-bad-switch "The switch S${s} is worn" for with-${a} { switch-${s}.worn }
  conclude s${s}-bad-sensor "The sensor B${s} does not switch" for without-${a} { sensor-${s}.dead }
  conclude s${s}-bad-fuse "The fuse F${s} has blown" { fuse-${s}.blown  leaves gate lockout closed }
  conclude s${s}-bad-coil "The coil of K${s} is shorted" {
    relay-${s}.coil-shorted, fuse-${s}.blown
    leaves gate lockout closed
  }
  conclude s${s}-bad-relay "The relay K${s} does not close" { relay-${s}.coil-open, relay-${s}.contacts-burnt }
  conclude s${s}-bad-winding "The winding of M${s} is open" { motor-${s}.winding-open  leaves gate lockout closed }
  conclude s${s}-bad-overload "The overload relay F${s}a is open" for with-${b} {
    overload-${s}.open
    leaves gate lockout closed
  }
  conclude s${s}-bad-bearing "The bearing of M${s} has seized" { motor-${s}.seized  leaves gate lockout closed }
  conclude s${s}-bad-belt "Belt ${s} is torn" { belt-${s}.torn }`
        .split('\n')
        .slice(1);
}

interface Writing {
    readonly stand: number;
    readonly features: readonly [string, string, string];
}

/**
 * Steps that only prepare, one after the other, beginning with a filler of this number; the last one leads to `then`. None
 * where the count is 0.
 */
function writeFillers(
    name: string,
    then: string,
    count: number,
    writing: Writing,
    begin: number,
): { first: string; text: string } {
    const nameOf = (index: number) => (index < count ? `${name}-${index + 1}` : then);
    let text = '';
    let round = begin;
    for (let index = 0; index < count; round += 1) {
        const fitting = fillers.filter(({ steps }) => index + steps <= count);
        const filler = fitting[round % fitting.length];
        if (!filler) break;
        text += filler.write(number => nameOf(index + number), writing, round);
        index += filler.steps;
    }
    return { first: nameOf(0), text };
}

interface Filler {
    readonly steps: number;
    /** `name(n)` is the name of its step n, from 0; that of the first step behind it follows its last one. */
    readonly write: (name: (step: number) => string, writing: Writing, round: number) => string;
}

const fillers: readonly Filler[] = [
    {
        steps: 1,
        write: (name, { stand }) =>
            `
  step ${name(0)} "Look at the lamp of the stand" {
    confirm lamp-${twoDigits(stand)} normal -> ${name(1)}
  }
`.slice(1),
    },
    {
        steps: 3,
        write: (name, { features: [, b] }) =>
            `
  step ${name(0)} "Go on by what is fitted" {
    go ${name(1)} for with-${b}
    go ${name(2)} for without-${b}
  }
  step ${name(1)} "Look through the cover" for with-${b} {
    do "Fit the cover." sets cover fitted takes 1 min
    go ${name(3)}
  }
  step ${name(2)} "Look past the lid" for without-${b} {
    do "Open the lid." sets lid open takes 1 min
    go ${name(3)}
  }
`.slice(1),
    },
    {
        steps: 2,
        write: (name, { features: [a, , c] }) =>
            `
  step ${name(0)} "Clear the way" {
    do "Clear the way to the cabinet." takes 2 min
    go ${name(1)} for with-${a} and with-${c}
    go ${name(2)}
  }
  step ${name(1)} "Take the guard away" for with-${a} and with-${c} {
    gate look-in
    do "Take the guard away." sets cover removed takes 3 min
    go ${name(2)}
  }
`.slice(1),
    },
    {
        steps: 1,
        write: name =>
            `
  step ${name(0)} "Make the desk ready" {
    follow tidy-desk { ready -> ${name(1)} }
  }
`.slice(1),
    },
    {
        steps: 1,
        write: (name, _writing, round) =>
            `
  step ${name(0)} "Wait" {
    do "Shut the lid of the desk." sets lid shut takes 1 min
    wait ${1 + (round % 4)} min "Let the drive come to rest."
    go ${name(1)}
  }
`.slice(1),
    },
];
