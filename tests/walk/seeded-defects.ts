/**
 * Forty slips that writers make, each as one edit of the dust extractor example, with the one finding that must name its cause.
 * They are data for tests only: each edit is made alone, in a copy of the example's texts, and what is found is compared.
 * The example, and so every name in here, is invented.
 */

/** One slip, as an edit and as the finding that it must bring. */
export interface SeededDefect {
    /** The file of the example, relative to its folder. */
    readonly file: string;
    /** Occurs exactly once in the file. */
    readonly oldText: string;
    readonly newText: string;
    /** What has gone wrong in the writer's day, in one sentence. */
    readonly slip: string;
    /** The code of the finding that must name the cause; others may come with it. */
    readonly code: string;
    /** A text on the lines of the finding's range, or in its message. */
    readonly at: string;
}

const machine = 'dust-extractor.fault';
const airflow = 'no-airflow.fault';
const trips = 'trips-at-start.fault';
const dust = 'dust-in-room.fault';
const procedures = 'procedures.fault';
const scenarios = 'scenarios.fault';

export const seededDefects: readonly SeededDefect[] = [
    // Ends that are wrong for all who come to them.
    {
        file: airflow,
        oldText: 'test container-look { normal -> k2-coil  out -> container-out }',
        newText: 'test container-look { normal -> container-out  out -> k2-coil }',
        slip: 'The two branches of a question by eye are swapped.',
        code: 'wrong-conclusion',
        at: 'container-out',
    },
    {
        file: airflow,
        oldText: 'test transformer-winding { normal -> blown-f1  wrong -> shorted-transformer }',
        newText: 'test transformer-winding { normal -> shorted-transformer  wrong -> blown-f1 }',
        slip: 'Swapped branches let the shorted transformer end at the fuse that it has blown, which is only its effect.',
        code: 'wrong-conclusion',
        at: 'blown-f1',
    },
    {
        file: airflow,
        oldText: 'conclude blown-f2 "The fuse F2 has blown" { f2.blown }',
        newText: 'conclude blown-f2 "The fuse F2 has blown" { f1.blown }',
        slip: 'A conclusion copied from the other fuse still names that one.',
        code: 'wrong-conclusion',
        at: 'blown-f2',
    },
    {
        file: machine,
        oldText: `test breaker-lever "Where is the lever of the breaker Q1?" {
    location "through the window of the control box"
    checks breaker.tripped as tripped`,
        newText: `test breaker-lever "Where is the lever of the breaker Q1?" {
    location "through the window of the control box"
    checks overload.tripped as tripped`,
        slip: 'A test copied from the overload to the breaker still checks the overload.',
        code: 'wrong-conclusion',
        at: 'worn-breaker',
    },
    {
        file: procedures,
        oldText: 'test it.coil-resistance { normal -> good  wrong -> bad }',
        newText: 'test it.coil-resistance { normal -> bad  wrong -> good }',
        slip: 'The results of a shared check are swapped, and both relays that it is followed for are judged the wrong way round.',
        code: 'wrong-conclusion',
        at: 'shorted-k2',
    },

    // Ends that leave out a suspect who is still possible.
    {
        file: airflow,
        oldText: 'good -> second-fuse  blown -> why-f1',
        newText: 'good -> second-fuse  blown -> blown-f1',
        slip: 'The question why the fuse has blown is skipped.',
        code: 'too-strong',
        at: 'blown-f1',
    },
    {
        file: trips,
        oldText: 'conclude was-overload "The overload had tripped once" { overload.tripped }',
        newText: 'conclude was-overload "The overload had tripped once" { overload.tripped for single-phase }',
        slip: 'The fault of a conclusion gains a guard, and the other build ends there with nothing named.',
        code: 'too-strong',
        at: 'was-overload',
    },
    {
        file: machine,
        oldText: 'fault caked "Caked with dust" weakens rate 8 per 1e6 h',
        newText: 'fault caked "Caked with dust" rate 8 per 1e6 h',
        slip: 'An effect is forgotten, so that a fault that makes the airflow weak is taken to stop it.',
        code: 'too-strong',
        at: 'loose-impeller',
    },
    {
        file: machine,
        oldText: 'fault loose "Loose on the shaft" rate 0.6 per 1e6 h {',
        newText: 'fault loose "Loose on the shaft" weakens rate 0.6 per 1e6 h {',
        slip: 'A fault is said to weaken what it stops, so that it is sought where the suction is low and ends with another.',
        code: 'too-strong',
        at: 'impeller.loose',
    },

    // Faults that no end names, healthy units at a repair, ends that name too much.
    {
        file: machine,
        oldText: 'fault torn "Torn" weakens rate 10 per 1e6 h',
        newText: `fault torn "Torn" weakens rate 10 per 1e6 h
    fault kinked "Kinked"`,
        slip: 'A new fault, still without a rate, is added to a part and to no tree.',
        code: 'fault-not-found',
        at: 'hose.kinked',
    },
    {
        file: machine,
        oldText: 'fault winding-open "Winding open circuit" rate 1 per 1e6 h',
        newText: `fault winding-open "Winding open circuit" rate 1 per 1e6 h
    fault lead-off "Lead off in the terminal box" rate 2 per 1e6 h`,
        slip: 'A fault learned in the field is added to the motor, and neither a test nor an end is told of it.',
        code: 'fault-not-found',
        at: 'motor.lead-off',
    },
    {
        file: trips,
        oldText: 'at overload clears overload.tripped takes 1 min',
        newText: 'at overload takes 1 min',
        slip: 'The reset is written and what it clears is forgotten, so that the trip never goes away.',
        code: 'fault-not-found',
        at: 'overload.tripped',
    },
    {
        file: machine,
        oldText: `    fault blocked "Blocked" rate 12 per 1e6 h {
      makes inlet-suction high
`,
        newText: '    fault blocked "Blocked" rate 12 per 1e6 h {\n',
        slip: 'What a blockage does to a reading before it is forgotten, and nobody looks for the blockage where the reading leads.',
        code: 'fault-not-found',
        at: 'hose.blocked',
    },
    {
        file: dust,
        oldText: 'test container-seal { normal -> push-in  worn -> worn-seal }',
        newText: 'test container-seal { normal -> worn-seal  worn -> push-in }',
        slip: 'Swapped branches fit a new seal to a sound container.',
        code: 'healthy-condemned',
        at: 'worn-seal',
    },
    {
        file: trips,
        oldText: 'confirm stays-on normal -> switch-off',
        newText: 'confirm stays-on normal -> was-breaker',
        slip: 'A fan that stays on is led to a repair, because nobody thought of a mistaken complaint.',
        code: 'healthy-condemned',
        at: 'was-breaker',
    },
    {
        file: airflow,
        oldText: 'conclude burnt-breaker "The breaker Q1 does not pass current" { breaker.contacts-open }',
        newText: `conclude burnt-breaker "The breaker Q1 does not pass current" {
    breaker.contacts-open, f1, f2, transformer, fan-switch, container-switch, k2, k1
  }`,
        slip: 'To be on the safe side an end names every part of the circuit.',
        code: 'ambiguous',
        at: 'burnt-breaker',
    },

    // Tests asked in a state in which they say nothing.
    {
        file: airflow,
        oldText: 'do "Turn the fan switch S1 to RUN." sets command on takes 1 min',
        newText: 'do "Turn the fan switch S1 to RUN." takes 1 min',
        slip: 'The action is written and what it sets is forgotten.',
        code: 'test-not-set-up',
        at: 'motor-runs',
    },
    {
        file: trips,
        oldText: `    do "Turn the fan switch S1 to RUN." sets command on takes 1 min
    test stays-on { normal -> was-breaker  trips -> worn-breaker }`,
        newText: '    test stays-on { normal -> was-breaker  trips -> worn-breaker }',
        slip: 'After the lockout nobody switches the fan on again.',
        code: 'test-not-set-up',
        at: 'stays-on',
    },
    {
        file: trips,
        oldText: `clears breaker.tripped takes 1 min
    restore lockout`,
        newText: 'clears breaker.tripped takes 1 min',
        slip: 'The lockout is not restored before the fan is tried again.',
        code: 'test-not-set-up',
        at: 'stays-on',
    },
    {
        file: airflow,
        oldText: `step first-fuse "Check the fuse F1" {
    gate lockout`,
        newText: 'step first-fuse "Check the fuse F1" {',
        slip: 'A fuse is taken out and measured without the lockout that its test needs.',
        code: 'test-not-set-up',
        at: 'continuity',
    },
    {
        file: airflow,
        oldText: 'low -> filter  absent -> loose-impeller',
        newText: 'low, absent -> filter',
        slip: 'No suction is treated as little suction, and a pressure drop is measured while no air flows.',
        code: 'test-not-set-up',
        at: 'filter-drop',
    },

    // Ways that go round or break off, and steps, ends and branches that nobody comes to.
    {
        file: airflow,
        oldText: 'test k2.coil-voltage { normal -> bad-k2  wrong -> switches }',
        newText: 'test k2.coil-voltage { normal -> bad-k2  wrong -> container }',
        slip: 'A branch leads back to the step before.',
        code: 'endless-loop',
        at: 'container',
    },
    {
        file: trips,
        oldText: `do "Turn the fan switch S1 to OFF." sets command off takes 1 min
    go no-fault-found`,
        newText: `do "Turn the fan switch S1 to OFF." sets command off takes 1 min
    go fan-off`,
        slip: 'Who finds nothing is sent back to the beginning, over and over.',
        code: 'endless-loop',
        at: 'fan-off',
    },
    {
        file: airflow,
        oldText: 'do "Turn the fan switch S1 to RUN." sets command on takes 1 min',
        newText: 'do "Turn the fan switch S1 to RUN." sets command on using fan-switch takes 1 min',
        slip: 'An action uses a part that can be faulty, and nothing says where to go then.',
        code: 'dead-end',
        at: 'fan-switch',
    },
    {
        file: trips,
        oldText: 'go try-again for single-phase',
        newText: 'go try-again for single-phase or cartridge',
        slip: 'A guard is widened and takes the builds of the line below it.',
        code: 'unreachable-step',
        at: 'phases',
    },
    {
        // The torn bag is not found then; the branch says why.
        file: machine,
        oldText: '    checks filter-bag.torn as dusty for bag\n',
        newText: '',
        slip: 'One of two lines of a test is lost, and in one build the test no longer sees what it is for.',
        code: 'impossible-branch',
        at: 'dusty -> torn-bag for bag',
    },
    {
        // What clogs the filter ends with the impeller then; the branch says why.
        file: machine,
        oldText: 'high otherwise shows stopped, weakened',
        newText: 'high otherwise shows stopped',
        slip: 'An outcome no longer says that a weak flow shows it too, and the test is blind to a clogged filter.',
        code: 'impossible-branch',
        at: 'high -> outlet',
    },
    {
        file: dust,
        oldText: 'complaint room-dust dusty mistaken 15 %',
        newText: 'complaint room-dust dusty mistaken 15 % for cartridge',
        slip: 'A complaint gains a guard, and nothing is left that brings it in the other build.',
        code: 'impossible-branch',
        at: 'dusty -> torn-bag for bag',
    },
    {
        // Faults of the motor show no suction too, but who comes here has heard the motor run.
        file: machine,
        oldText: 'fault loose "Loose on the shaft" rate 0.6 per 1e6 h {',
        newText: 'fault loose "Loose on the shaft" only when caused {',
        slip: 'A fault is said to come only from a cause, and no fault is said to cause it.',
        code: 'contradiction',
        at: 'absent -> loose-impeller',
    },

    // Questions that tell nothing new.
    {
        file: airflow,
        oldText: 'confirm hose-look torn -> torn-hose',
        newText: 'test hose-look { torn -> torn-hose  normal -> leave-off }',
        slip: 'A question whose answer is known is asked as if it were open.',
        code: 'pointless-test',
        at: 'hose-look',
    },
    {
        file: machine,
        oldText: '-> motor-cable -> capacitor for single-phase -> motor -> [motor-runs]',
        newText: '-> motor-cable -> capacitor for single-phase -> [motor-runs]',
        slip: 'A place is lost from a flow when its line is written anew, and the measurement for its part has one answer left.',
        code: 'pointless-test',
        at: 'overload-voltage',
    },
    {
        file: airflow,
        oldText: 'test hood-airflow { normal -> switch-off  low, absent -> suction }',
        newText: `test hood-airflow { normal -> once-more  low, absent -> suction }
  }

  step once-more "Measure the airflow once more" {
    test hood-airflow { normal -> switch-off  low, absent -> suction }`,
        slip: 'To be sure, a good reading is taken again at once.',
        code: 'repeated-test',
        at: 'hood-airflow',
    },

    // Builds that were not thought of.
    {
        file: airflow,
        oldText: `normal -> clogged-bag for bag
      normal -> pulse for cartridge`,
        newText: `normal -> clogged-bag for cartridge
      normal -> pulse for bag`,
        slip: 'The guards of two branches are swapped.',
        code: 'missing-in-build',
        at: 'pulse',
    },
    {
        file: airflow,
        oldText: 'conclude blocked-hose "The hose is blocked" { hose.blocked }',
        newText: 'conclude blocked-hose "The hose is blocked" for cartridge { hose.blocked }',
        slip: 'A conclusion gains a guard that its part does not have.',
        code: 'missing-in-build',
        at: 'blocked-hose',
    },
    {
        file: machine,
        oldText: 'test capacitance "Capacitance of C1, both leads off" in motor-box for single-phase {',
        newText: 'test capacitance "Capacitance of C1, both leads off" in motor-box for cartridge {',
        slip: 'A test gets the guard of another option.',
        code: 'missing-in-build',
        at: 'capacitance',
    },

    // Worked cases.
    {
        file: scenarios,
        oldText: 'expect clogged-bag within 20 min',
        newText: 'expect blocked-outlet within 20 min',
        slip: 'The worked case expects the end of another one.',
        code: 'scenario-failed',
        at: 'The filter bag is full',
    },
    {
        file: scenarios,
        oldText: 'expect jammed-impeller within 75 min',
        newText: 'expect jammed-impeller within 45 min',
        slip: 'The promised time forgets that the motor must cool for half an hour.',
        code: 'scenario-failed',
        at: 'A piece of wood jams the impeller',
    },

    // What is seen without a walk.
    {
        file: airflow,
        oldText: 'normal -> caked-impeller for single-phase',
        newText: 'normal -> caked-impeller for single-phase and bag',
        slip: 'A branch is written for the usual build, and the same supply with the other filter is forgotten.',
        code: 'branch-missing',
        at: 'filter-drop',
    },
    {
        file: trips,
        oldText: 'go try-again for single-phase',
        newText: 'go try-again',
        slip: 'A guard is dropped, so that what stands behind it is never reached.',
        code: 'step-goes-on',
        at: 'go phases for three-phase',
    },
    {
        file: trips,
        oldText: 'conclude was-breaker "The breaker had tripped once" { breaker.tripped }',
        newText: `conclude was-breaker "The breaker had tripped once" { breaker.tripped }
  conclude burnt-lead "A lead at the breaker is burnt" { breaker.contacts-open }`,
        slip: 'A new end is written, and no branch leads to it.',
        code: 'unused-declaration',
        at: 'burnt-lead',
    },
];
