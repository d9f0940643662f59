// Writes trees and worked cases for an invented conveyor line: halving along the line, then along the drive.

import { driveName, drivesOfLine } from './invented-plant.js';

/** One tree for the whole line: it halves the belts, then isolates the fault within the drive that stands. */
export function writeLineTree(plant: number): readonly string[] {
    const count = drivesOfLine.length;
    const last = driveName(count);
    return [
        `// No boxes leave conveyor line ${plant}.`,
        `tree line-stands-${plant} "No boxes leave the line" of plant-${plant} {`,
        ...indent([
            `complaint moves-${last} absent mistaken 5 %`,
            'disagree -> service-desk',
            'cannot be read -> service-desk',
            'cannot be done -> service-desk',
            'still wrong -> run-line',
            'note "Work at the cabinet is for people with the licence that your country asks for."',
            '',
            'step run-line "Run the line" {',
            '  warning about turning "The belts start at once. Keep hands and clothing away."',
            '  do "Give the run command at the desk" sets command run takes 1 min',
            `  test moves-${last} { normal -> leave-stopped  absent -> ${halfStep(1, count)} }`,
            '}',
            'step leave-stopped {',
            '  do "Stop the line at the desk" sets command stop takes 1 min',
            '  go no-fault-found',
            '}',
            ...writeHalves(1, count),
            ...drivesOfLine.flatMap(drive => ['', ...writeDriveSteps(drive)]),
            '',
            'refer no-fault-found "Tell the shift leader" because "the line carries its boxes"',
            ...writeServiceDesk(),
        ]),
        '}',
    ];
}

/** A tree for each drive of the line, for the technician who sees at once which one stands. */
export function writeDriveTrees(plant: number, drives: readonly number[]): readonly string[] {
    return drives.flatMap(drive => {
        const d = driveName(drive);
        return [
            `tree drive-${d}-stands-${plant} "Motor M${d} stands" of plant-${plant} {`,
            ...indent([
                `complaint motor-turns-${d} absent`,
                'disagree -> service-desk',
                'cannot be read -> service-desk',
                'cannot be done -> service-desk',
                '',
                'step run-line "Run the line" {',
                '  warning about turning "The belts start at once. Keep hands and clothing away."',
                '  do "Give the run command at the desk" sets command run takes 1 min',
                `  test motor-turns-${d} { normal -> leave-stopped  absent -> d${d}-coil }`,
                '}',
                'step leave-stopped {',
                '  do "Stop the line at the desk" sets command stop takes 1 min',
                '  go no-fault-found',
                '}',
                ...writeElectricalSteps(drive),
                '',
                'refer no-fault-found "Tell the shift leader" because "the motor turns"',
                ...writeServiceDesk(),
            ]),
            '}',
            '',
        ];
    });
}

/** Worked cases: each fault of each drive ends where it should, in every tree. */
export function writeScenarios(plant: number, drives: readonly number[]): readonly string[] {
    return drives.flatMap(drive => {
        const d = driveName(drive);
        const cases: readonly (readonly [title: string, fault: string, end: string])[] = [
            ['Blown control fuse', `fuse-${d}.blown`, 'bad-fuse'],
            ['Worn switch', `switch-${d}.worn`, 'bad-switch'],
            ['Breaker does not hold', `breaker-${d}.worn`, 'bad-breaker'],
            ['Open coil', `contactor-${d}.coil-open`, 'bad-contactor'],
            ['Burnt contacts', `contactor-${d}.contacts-burnt`, 'bad-contactor'],
            ['Open overload relay', `overload-${d}.open`, 'bad-overload'],
            ['Open winding', `motor-${d}.winding-open`, 'bad-winding'],
            ['Seized bearing', `motor-${d}.seized`, 'bad-bearing'],
        ];
        return [`line-stands-${plant}`, `drive-${d}-stands-${plant}`].flatMap(tree =>
            cases.flatMap(([title, fault, end], index) => [
                `scenario "${title} at drive ${d}" of ${tree} {`,
                `  note "Seen on the trial line in week ${((index + drive) % 50) + 1}, with the covers on."`,
                ...(index % 2 === 0 ? ['  build single-phase, fan-cooled'] : []),
                `  fault ${fault}`,
                `  expect d${d}-${end} within 240 min`,
                '}',
                '',
            ]),
        );
    });
}

function indent(lines: readonly string[]): readonly string[] {
    return lines.map(line => (line === '' ? line : `  ${line}`));
}

// The fault is in one of the drives from `first` to `last`; the step asks the belt in the middle.
function halfStep(first: number, last: number): string {
    return first === last ? `d${driveName(first)}-motor` : `belts-${driveName(first)}-to-${driveName(last)}`;
}

function writeHalves(first: number, last: number): readonly string[] {
    if (first === last) {
        return [];
    }
    const middle = Math.floor((first + last) / 2);
    return [
        `step ${halfStep(first, last)} "Look at belt ${driveName(middle)}" {`,
        `  test moves-${driveName(middle)} {`,
        `    normal -> ${halfStep(middle + 1, last)}`,
        `    absent -> ${halfStep(first, middle)}`,
        '  }',
        '}',
        ...writeHalves(first, middle),
        ...writeHalves(middle + 1, last),
    ];
}

function writeDriveSteps(drive: number): readonly string[] {
    const d = driveName(drive);
    return [
        `step d${d}-motor "Listen to the motor M${d}" {`,
        `  test motor-turns-${d} { normal -> d${d}-stop  absent -> d${d}-coil }`,
        '}',
        `step d${d}-stop {`,
        '  do "Stop the line at the desk" sets command stop takes 1 min',
        `  go d${d}-bad-belt`,
        '}',
        ...writeElectricalSteps(drive),
        `conclude d${d}-bad-belt "Belt ${d} is torn" { belt-${d}.torn }`,
    ];
}

function writeElectricalSteps(drive: number): readonly string[] {
    const d = driveName(drive);
    return `
step d${d}-coil "Measure at the coil of K${d}" {
  note "With voltage at the coil, the fault is in the power circuit."
  gate live-test
  do "Open the cabinet" sets cabinet-door open takes 1 min
  test coil-voltage-${d} {
    normal -> d${d}-load
    absent -> d${d}-control
  }
}

step d${d}-control "Measure after the fuse F${d}" {
  note "The fuse stands in the row of the control circuit, beside its switch."
  gate live-test
  test control-voltage-${d} {
    normal -> d${d}-shut-switch
    absent -> d${d}-shut-fuse
  }
}

step d${d}-load "Measure after the contactor K${d}" {
  note "With voltage here, the overload relay or the motor is at fault."
  gate live-test
  test motor-voltage-${d} {
    normal -> d${d}-winding
    absent -> d${d}-line
  }
}

step d${d}-line "Measure after the breaker Q${d}" {
  note "Measure at the breaker itself, not at the rail behind it."
  gate live-test
  test line-voltage-${d} {
    normal -> d${d}-shut-contactor
    absent -> d${d}-shut-breaker
  }
}

step d${d}-winding "Measure the winding of M${d}" {
  caution about hot-motors "The motor is hot. Do not touch it before it has cooled."
  note "The terminals of the motor are below the grey cover with four screws."
  gate lockout
  do "Shut the cabinet" sets cabinet-door shut takes 1 min
  wait 30 min until hot-motors safe "Let the motor cool"
  test winding-${d} {
    normal, odd -> d${d}-shaft
    open -> d${d}-bad-winding
  }
}

step d${d}-shaft "Turn the shaft of M${d} by hand" {
  note "Wear gloves: the edges of the roller are sharp."
  test shaft-${d} {
    normal -> d${d}-bad-overload
    stuck -> d${d}-bad-bearing
  }
}
${['switch', 'fuse', 'contactor', 'breaker'].map(part => writeShut(d, part)).join('\n')}

conclude d${d}-bad-switch "The switch S${d} is worn" {
  switch-${d}.worn
  note "Turn the switch ten times before you replace it: dirt comes off its contacts."
}

conclude d${d}-bad-fuse "The fuse F${d} has blown" {
  fuse-${d}.blown
  note "A fuse that blows again has a cause: look for a damaged cable first."
}
conclude d${d}-bad-contactor "The contactor K${d} does not close" {
  contactor-${d}.coil-open,
  contactor-${d}.contacts-burnt
}

conclude d${d}-bad-breaker "The breaker Q${d} does not hold" {
  breaker-${d}.worn
  note "Set the new breaker to the rated current on the plate of the motor."
}

conclude d${d}-bad-winding "The winding of M${d} is open" {
  motor-${d}.winding-open
  note "Note the number on the plate of the motor before you order a new one."
}

conclude d${d}-bad-overload "The overload relay B${d} is open" {
  overload-${d}.open
  note "Set the new relay to the rated current on the plate of the motor."
}

conclude d${d}-bad-bearing "The bearing of M${d} has seized" {
  motor-${d}.seized for fan-cooled,
  motor-${d}.fan-broken for blower-cooled
}`
        .trim()
        .split('\n');
}

// The door is shut again before the unit is handed back.
function writeShut(d: string, part: string): string {
    return `
step d${d}-shut-${part} {
  note "Push the door until the lock clicks."
  gate live-test
  do "Shut the cabinet" sets cabinet-door shut takes 1 min
  go d${d}-bad-${part}
}`;
}

/** Where a reading that cannot be taken leads: anything may be open, running or locked then. */
function writeServiceDesk(): readonly string[] {
    return [
        'refer service-desk "Ask the service desk" because "a reading could not be taken or does not agree" {',
        '  warning "The line may run, the cabinet may be open and the lockout closed. Tell those who take over."',
        '  leaves gate lockout closed',
        '  leaves cabinet-door open',
        '  leaves command run',
        '}',
    ];
}
