// Writes the equipment of one invented conveyor line: a chain of drives, each with its control and power circuit.

/** The drives that stand in one line, by their numbers. */
export const drivesOfLine: readonly number[] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

/** The instruments and kinds that every plant uses. */
export function writeLibrary(): readonly string[] {
    return `
// Instruments and kinds of parts for all conveyor lines. All of it is invented.
instrument multimeter "Multimeter" {
  measures voltage AC rms 0 V .. 750 V resolution 0.1 V accuracy 1 % + 3 digits
  measures voltage DC 0 V .. 1000 V resolution 0.1 V accuracy 0.5 % + 2 digits
  measures resistance 0 Ω .. 40 MΩ resolution 0.1 Ω accuracy 1 % + 2 digits
  category III 600 V
}

kind fuse-kind "Fine fuse" {
  fault blown "Blown" rate 0.4 per 1e6 h
}

kind contactor-kind "Motor contactor" {
  fault coil-open "Coil open circuit" rate 0.9 per 1e6 h
  fault contacts-burnt "Contacts do not close" rate 1.6 per 1e6 h
}`
        .trim()
        .split('\n');
}

/** The equipment `plant-NUMBER` with everything that its trees are about. */
export function writePlant(plant: number): readonly string[] {
    return [
        `// Conveyor line ${plant}. The line, its parts and every figure are invented.`,
        `equipment plant-${plant} "Conveyor line ${plant}" {`,
        ...indent(writeBuilds(plant)),
        ...drivesOfLine.flatMap(drive => ['', ...indent(writeDrive(plant, drive))]),
        '',
        ...indent(writeTransport()),
        '}',
    ];
}

/** The number of a drive as it stands in names: `07`. */
export function driveName(drive: number): string {
    return String(drive).padStart(2, '0');
}

function indent(lines: readonly string[]): readonly string[] {
    return lines.map(line => (line === '' ? line : `  ${line}`));
}

function writeBuilds(plant: number): readonly string[] {
    return `
note "The maker's instructions and your local codes come before this document."
see "Service handbook ${plant}, section 4"

option network "Electrical supply" {
  single-phase "230 V, one phase" share ${50 + (plant % 4) * 10} %
  three-phase "400 V, three phases" share ${50 - (plant % 4) * 10} %
}
option cooling "Cooling of the motors" {
  fan-cooled "Fan on the shaft"
  blower-cooled "Blower of its own"
}
exclude single-phase with blower-cooled because "the blower needs three phases"

hazard mains "Mains voltage" { electrical 230 V AC for single-phase 400 V AC for three-phase }
hazard turning "Turning shafts and belts" { mechanical  runs down in ${20 + (plant % 5) * 5} s }
hazard hot-motors "Hot motor casings" { thermal 85 °C  cools in 30 min }

zone cabinet "Control cabinet" { exposes mains  category III }
zone motor-bay "Bay of the motors" { exposes mains, turning, hot-motors }

condition command "Run command" { stop run }
condition cabinet-door "Door of the cabinet" { shut open }

supply spur "Supply of the line" carries mains in cabinet
supply boxes "Boxes at the infeed"

gate lockout "Lock out and prove dead" {
  controls mains, turning, hot-motors
  warning about mains "Mains voltage can kill. Touch nothing before it is proved dead."
  prepare "Tell the people at the line"
  shut-down "Stop the line at the desk" sets command stop
  isolate mains, turning, hot-motors "Turn the main isolator off"
  lock "Fit your own lock and tag"
  release turning, hot-motors "Wait until the belts stand and the motors are cool" 30 min
  prove mains "Prove the tester, test for dead, prove the tester again" with multimeter proved before and after
  prove turning, hot-motors "Push a belt by hand and feel that the motors are cool"
  restore "Clear the line, take your lock off, turn the isolator on"
  takes 12 min
}
gate live-test "Measure at the open cabinet" {
  permits measuring mains
  danger about mains "Live parts are open to touch. They kill whoever touches them."
  instrument category III 600 V
  wear "Insulating gloves and a face shield"
}`
        .trim()
        .split('\n');
}

function writeDrive(plant: number, drive: number): readonly string[] {
    const d = driveName(drive);
    const varied = (plant * 7 + drive * 3) % 10;
    return `
// Drive ${d}
part fuse-${d} is fuse-kind "Control fuse F${d}" in cabinet {
  location "row ${varied + 1}, beside the terminals of drive ${d}"
  note "A fuse of another rating does not protect the control circuit."
  protects control-${d}
  replace "Fit a new fuse F${d} of the same rating" takes 5 min costs 2 EUR under lockout
}

part switch-${d} "Drive switch S${d}" in cabinet {
  note "The switch has two contacts; the lower one is for the control desk."
  location "row ${varied + 1}, left of the terminals" for single-phase
  location "row ${varied + 1}, behind the second rail" for three-phase
  replace "Replace the switch S${d}" takes 15 min costs ${12 + varied} EUR under lockout
  fault worn "Contact worn" rate ${(0.5 + varied / 10).toFixed(1)} per 1e6 h
}

part breaker-${d} "Motor breaker Q${d}" in cabinet {
  location "row ${varied + 1}, at the left end of the rail"
  note "The breaker is set to the rated current on the plate of the motor."
  protects power-${d}
  replace "Replace the breaker Q${d}" takes 20 min costs 35 EUR under lockout
  fault worn "Does not hold" rate 0.6 per 1e6 h
}

part contactor-${d} is contactor-kind "Contactor K${d}" in cabinet {
  location "row ${varied + 2}, in the middle of the rail"
  note "The contactor makes a clear sound when it closes."
  replace "Replace the contactor K${d}" takes 25 min costs 48 EUR under lockout
}

part overload-${d} "Overload relay B${d}" in cabinet {
  location "row ${varied + 2}, below the contactor K${d}"
  note "The relay needs five minutes to cool after it has tripped."
  replace "Replace the overload relay B${d}" takes 20 min costs 30 EUR under lockout
  fault open "Contact open" rate 1.1 per 1e6 h
}

part motor-${d} "Motor M${d}" in motor-bay {
  note "The motor weighs ${18 + varied} kg. Two people lift it out of the bay."
  location "under the belt, access from the left"
  replace "Replace the motor M${d}" takes 90 min costs ${260 + varied * 10} EUR under lockout
  fault winding-open "Winding open" rate ${(1 + varied / 5).toFixed(1)} per 1e6 h
  fault seized "Bearing seized" rate 2 per 1e6 h for fan-cooled
  fault fan-broken "Bearing seized after the blower failed" rate 3 per 1e6 h for blower-cooled
}

part belt-${d} "Belt ${d}" in motor-bay {
  location "between the rollers ${d} and ${d}a, below the cover of sheet metal"
  note "The tension is right when a hand can press the belt down by two fingers."
  replace "Fit a new belt ${d}" takes 40 min costs 65 EUR under lockout
  fault torn "Torn or slipping" rate ${20 + varied} per 1e6 h
}

flow control-${d} "Control circuit ${d}": spur -> fuse-${d} -> [control-voltage-${d}] -> switch-${d} -> [coil-voltage-${d}]
  -> contactor-${d} feeds contactor-${d} in power-${d}
flow power-${d} "Power circuit ${d}": spur -> breaker-${d} -> [line-voltage-${d}] -> contactor-${d}
  -> [motor-voltage-${d}] -> overload-${d} -> motor-${d} -> [motor-turns-${d}] feeds belt-${d} in transport


test control-voltage-${d} "Voltage after the fuse F${d}" in cabinet {
  note "Hold the black probe at terminal 0 of the transformer."
  measure voltage AC rms with multimeter
  takes 3 min
  needs command run, cabinet-door open
  normal 24 V ± 10 %
  absent otherwise
}

test coil-voltage-${d} "Voltage at the coil of K${d}" in cabinet {
  note "Terminal A1 is the upper left one of the contactor."
  measure voltage AC rms with multimeter
  takes 3 min
  needs command run, cabinet-door open
  normal 24 V ± 15 %
  absent otherwise
}

test line-voltage-${d} "Voltage after the breaker Q${d}" in cabinet {
  note "Measure between the two outer terminals of the breaker."
  measure voltage AC rms with multimeter
  takes 4 min
  needs command run, cabinet-door open
  normal 207 V .. 253 V for single-phase
  normal 360 V .. 440 V for three-phase
  absent otherwise
}

test motor-voltage-${d} "Voltage after the contactor K${d}" in cabinet {
  note "The lower terminals of the contactor carry voltage while it is closed."
  measure voltage AC rms with multimeter
  takes 4 min
  needs command run, cabinet-door open
  normal 207 V .. 253 V for single-phase
  normal 360 V .. 440 V for three-phase
  absent otherwise
}

test motor-turns-${d} "Does the motor M${d} turn?" {
  note "The line is loud; stand close to the bay of the motor, outside its cover."
  observe by ear
  takes 1 min
  needs command run
  normal yes
  absent no
}

test winding-${d} "Winding of M${d}, cable off" in motor-bay {
  note "Take the cable off at the terminals of the motor before you measure."
  measure resistance with multimeter
  takes 8 min
  needs mains isolated
  checks motor-${d}.winding-open as open
  normal ${4 + varied} Ω ± 40 % for single-phase
  normal ${6 + varied} Ω ± 40 % for three-phase
  open > 1 kΩ
  odd otherwise
}

test shaft-${d} "Turn the shaft of M${d} by hand" in motor-bay {
  note "Take the belt off its roller first, so that only the motor turns."
  observe by hand
  takes 4 min
  needs turning isolated
  checks motor-${d}.seized as stuck for fan-cooled, motor-${d}.fan-broken as stuck for blower-cooled
  normal "turns freely"
  stuck "does not turn"
}

test moves-${d} "Does belt ${d} carry the boxes on?" {
  note "Put one empty box on the belt and watch whether it goes on."
  observe by eye
  takes 1 min
  needs command run
  normal yes
  absent no
}`
        .trim()
        .split('\n');
}

// The boxes pass every belt, so each belt's own test depends on all drives before it.
function writeTransport(): readonly string[] {
    const elements = drivesOfLine.map(driveName).map(d => `belt-${d} -> [moves-${d}]`);
    return ['flow transport "Way of the boxes": boxes', ...elements.map(element => `  -> ${element}`)];
}
