// Writes the equipment of one invented sorting line with many options: twenty stands, each with ten faults.

/** The stands of the line, by their numbers. Each has ten faults, some of them in some builds only. */
export const standsOfSorter: readonly number[] = Array.from({ length: 20 }, (_, index) => index + 1);

/** The number of a stand or feature as it stands in names: `07`. */
export function twoDigits(number: number): string {
    return String(number).padStart(2, '0');
}

/** The names of the three features that a stand depends on; stands beside each other share one. */
export function featuresOf(stand: number, options: number): readonly [string, string, string] {
    const feature = (number: number) => twoDigits(number % options);
    return [feature(2 * stand - 2), feature(2 * stand - 1), feature(2 * stand)];
}

/** The equipment `sorter` with as many options of two choices. */
export function writeSorter(options: number): string {
    const stands = standsOfSorter.flatMap(stand => writeStand(stand, options));
    return [
        '// A sorting line. The line, its parts and every figure are invented.',
        ...writeKinds(),
        'equipment sorter "Sorting line" {',
        ...indent([...writeOptions(options), ...writeCommon(), ...stands, ...writeTransport()]),
        '}',
        '',
        ...writeProcedures(),
        '',
    ].join('\n');
}

function indent(lines: readonly string[]): readonly string[] {
    return lines.map(line => (line === '' ? line : `  ${line}`));
}

function toLines(text: string): readonly string[] {
    return text.trim().split('\n');
}

function writeKinds(): readonly string[] {
    return toLines(`
instrument multimeter "Multimeter" {
  measures voltage AC rms 0 V .. 750 V resolution 0.1 V accuracy 1 % + 3 digits
  measures resistance 0 Ω .. 40 MΩ resolution 0.1 Ω accuracy 1 % + 2 digits
  category III 600 V
}

kind fuse-kind "Fuse in a holder" {
  fault blown "Blown" rate 0.5 per 1e6 h
}

kind relay-kind "Relay with a coil for 24 V" {
  fault coil-open "Coil open circuit" rate 0.9 per 1e6 h
  fault coil-shorted "Turns of the coil shorted" shorts rate 0.4 per 1e6 h
  fault contacts-burnt "Contacts do not close" rate 1.6 per 1e6 h
  test coil-resistance "Resistance of the coil, one lead off" {
    checks coil-open as open, coil-shorted as low
    measure resistance with multimeter
    takes 6 min
    needs isolated
    normal 8 Ω .. 1 kΩ
    low otherwise
    open > 1 kΩ
  }
}
`);
}

function writeOptions(options: number): readonly string[] {
    const lines: string[] = [];
    for (let number = 0; number < options; number += 1) {
        const name = twoDigits(number);
        const share = 30 + ((number * 7) % 40);
        lines.push(
            `option feature-${name} "Feature ${name}" {`,
            `  with-${name} "Fitted" share ${share} %`,
            `  without-${name} "Not fitted" share ${100 - share} %`,
            '}',
        );
    }
    for (let number = 3; number + 1 < options; number += 5) {
        const [name, other] = [twoDigits(number), twoDigits(number + 1)];
        lines.push(`exclude with-${name} with with-${other} because "They take the same slot."`);
    }
    return lines;
}

function writeCommon(): readonly string[] {
    return toLines(`
note "The maker's instructions and your local codes come before this document."

hazard mains "Mains voltage" { electrical 230 V AC for with-00 400 V AC for without-00 }
hazard turning "Turning shafts and belts" { mechanical  runs down in 30 s }
hazard hot-motors "Hot motor casings" { thermal 85 °C  cools in 30 min }

zone cabinet "Control cabinet" { exposes mains  category III }
zone motor-bay "Bay of the motors" { exposes mains, turning while cover removed, hot-motors }

condition command "Run command" { stop run }
condition cabinet-door "Door of the cabinet" { shut open }
condition cover "Cover of the bay" { fitted removed }
condition lid "Lid of the desk" { shut open }
condition panel "Test switch" for with-01 { off on }

supply spur "Supply of the line" carries mains in cabinet
supply boxes "Boxes at the infeed"

gate lockout "Lock out and prove dead" {
  controls mains, turning, hot-motors
  warning about mains "Mains voltage can kill. Touch nothing before it is proved dead."
  prepare "Tell the people at the line."
  shut-down "Stop the line at the desk." sets command stop
  isolate mains, turning, hot-motors "Turn the main isolator off."
  lock "Fit your own lock and tag."
  release turning, hot-motors "Wait until the belts stand and the motors are cool." 30 min
  prove mains "Prove the tester, test for dead, prove the tester again." with multimeter proved before and after
  prove turning, hot-motors "Push a belt by hand and feel that the motors are cool."
  restore "Clear the line, take your lock off, turn the isolator on."
  takes 12 min
}
gate look-in "Look behind the cover" {
  permits looking turning
  warning about turning "Belts and shafts may turn. Keep your hands out."
  wear "Tight clothing"
}
gate live-test "Measure at the open cabinet" {
  permits measuring mains
  danger about mains "Live parts are open to touch. They kill whoever touches them."
  instrument category III 600 V
  wear "Insulating gloves and a face shield"
}
`);
}

function writeStand(stand: number, options: number): readonly string[] {
    const s = twoDigits(stand);
    const [a, b, c] = featuresOf(stand, options);
    return toLines(`
// Stand ${s}
part fuse-${s} is fuse-kind "Control fuse F${s}" in cabinet {
  protects control-${s}
  replace "Fit a new fuse F${s} of the same rating." takes 5 min costs 2 EUR under lockout
}
part switch-${s} "Stand switch S${s}" in cabinet for with-${a} {
  replace "Replace the switch S${s}." takes 15 min costs 12 EUR under lockout
  fault worn "Contact worn" rate 1.4 per 1e6 h
}
part sensor-${s} "Stand sensor B${s}" in cabinet for without-${a} {
  replace "Replace the sensor B${s}." takes 10 min costs 30 EUR under lockout
  fault dead "Does not switch" rate 2.1 per 1e6 h
}
part relay-${s} is relay-kind "Stand relay K${s}" in cabinet {
  replace "Replace the relay K${s}." takes 25 min costs 48 EUR under lockout
  fault coil-shorted { causes fuse-${s}.blown }
}
part overload-${s} "Overload relay F${s}a" in cabinet for with-${b} {
  replace "Replace the overload relay F${s}a." takes 20 min costs 30 EUR under lockout
  fault open "Contact open" rate 1.1 per 1e6 h
}
part motor-${s} "Motor M${s}" in motor-bay {
  replace "Replace the motor M${s}." takes 90 min costs 260 EUR under lockout
  fault winding-open "Winding open" rate 1.2 per 1e6 h
  fault seized "Bearing seized" rate 2 per 1e6 h for with-${b} or with-${c}
}
part belt-${s} "Belt ${s}" in motor-bay {
  replace "Fit a new belt ${s}." takes 40 min costs 65 EUR under lockout
  fault torn "Torn or slipping" rate 20 per 1e6 h
}

flow control-${s} "Control circuit ${s}":
  spur -> [lamp-${s}] -> fuse-${s} -> [control-voltage-${s}] -> switch-${s} for with-${a} -> sensor-${s} for without-${a}
  -> [coil-voltage-${s}] -> relay-${s} feeds relay-${s} in power-${s}
flow power-${s} "Power circuit ${s}":
  spur -> relay-${s} -> [motor-voltage-${s}] -> overload-${s} for with-${b} -> motor-${s} -> [motor-turns-${s}]
  feeds belt-${s} in transport

test lamp-${s} "Is the lamp of stand ${s} on?" {
  observe by eye
  takes 1 min
  normal yes
  absent no
}
test control-voltage-${s} "Voltage after the fuse F${s}" in cabinet {
  measure voltage AC rms with multimeter
  takes 3 min
  needs command run, cabinet-door open
  normal 24 V ± 10 % for with-${c}
  normal 48 V ± 10 % for without-${c}
  absent otherwise
}
test coil-voltage-${s} "Voltage at the coil of K${s}" in cabinet {
  measure voltage AC rms with multimeter
  takes 3 min
  needs command run, cabinet-door open
  normal 24 V ± 15 % for with-${c}
  normal 48 V ± 15 % for without-${c}
  absent otherwise
}
test motor-voltage-${s} "Voltage after the relay K${s}" in cabinet {
  measure voltage AC rms with multimeter
  takes 4 min for with-${a}
  takes 6 min for without-${a}
  needs command run, cabinet-door open
  normal >= 207 V
  absent < 20 V
  low otherwise
}
test motor-turns-${s} "Does the motor M${s} turn?" {
  observe by ear
  takes 1 min
  needs command run
  normal yes
  absent no
}
test winding-${s} "Winding of M${s}, cable off" in motor-bay {
  checks motor-${s}.winding-open as open
  measure resistance with multimeter
  takes 8 min
  needs mains isolated
  normal ${3 + (stand % 5)} Ω ± 40 % for with-${b}
  normal ${9 + (stand % 5)} Ω ± 40 % for without-${b}
  open > 1 kΩ
  odd otherwise
}
test shaft-${s} "Turn the shaft of M${s} by hand" in motor-bay {
  checks motor-${s}.seized as stuck
  observe by hand
  takes 4 min
  needs turning isolated
  normal "turns freely"
  stuck "does not turn"
}
test moves-${s} "Does belt ${s} carry the boxes on?" {
  observe by eye
  takes 1 min
  needs command run
  normal yes
  absent no
}
`);
}

// The boxes pass every belt, so each belt's own test depends on all stands before it.
function writeTransport(): readonly string[] {
    const elements = standsOfSorter.map(twoDigits).map(s => `  -> belt-${s} -> [moves-${s}]`);
    return ['flow transport "Way of the boxes": boxes', ...elements];
}

function writeProcedures(): readonly string[] {
    return toLines(`
procedure relay-check "Check the coil of a relay" of sorter about relay-kind {
  note "Do this check while the line is locked out."
  step reading "Measure the coil" {
    test it.coil-resistance { normal -> good  low, open -> bad }
  }
  result good "The coil is right"
  result bad "The coil is faulty"
}

procedure tidy-desk "Make the desk ready" of sorter {
  step look "Look at the desk" {
    go clear for with-01
    go closed
  }
  step clear "Set the test switch back" for with-01 {
    do "Turn the test switch off and on again." sets panel on takes 1 min
    go switched
  }
  step switched "Leave the test switch off" for with-01 {
    do "Turn the test switch off." sets panel off takes 1 min
    go closed
  }
  step closed "Shut the lid" {
    do "Shut the lid of the desk." sets lid shut takes 1 min
    go ready
  }
  result ready "The desk is ready"
}
`);
}
