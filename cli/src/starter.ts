// The small workspace that `new` makes: an invented garden fountain that uses the main forms of the language once.

/** The files of the workspace by their path. They check clean and are laid out as `format` lays them out. */
export const starterFiles: Readonly<Record<string, string>> = {
    'fountain.fault': `// The equipment: its hazards, parts and faults, tests and gates.
// This fountain is invented. Change it into your own equipment, or begin a new file beside it.

instrument multimeter "Multimeter" {
  measures voltage AC 0 V .. 600 V resolution 0.1 V accuracy 1 % + 3 digits
  measures resistance 0 Ω .. 40 kΩ resolution 0.01 Ω accuracy 0.5 % + 2 digits
  category III 600 V
}

equipment fountain "Garden fountain" {
  note "Invented, with all its figures. Do not use it on real equipment."

  hazard mains "Mains voltage" { electrical 230 V AC }

  zone power-box "Power box" { exposes mains  category III }

  supply outlet "Garden outlet" carries mains {
    fault dead "No mains" rate 6 per 1e6 h
  }

  part fuse "Fuse F1" in power-box {
    location "in the power box, left of the transformer"
    replace "Fit a new fuse of the same type and rating." takes 5 min costs 2 EUR under lockout
    fault blown "Blown" rate 3 per 1e6 h
  }

  part transformer "Transformer T1, 24 V" in power-box {
    location "in the power box, on the right"
    replace "Fit a new transformer." takes 25 min costs 35 EUR under lockout
    fault open "Winding open" rate 1 per 1e6 h
  }

  part pump "Pump" {
    location "below the basin"
    replace "Fit a new pump." takes 20 min costs 60 EUR
    fault jammed "Jammed" rate 12 per 1e6 h
  }

  // The order in which the parts pass on power. A test in brackets looks at what has come so far.
  flow power: outlet -> [outlet-works] -> fuse -> transformer -> [lamp] -> pump -> [water]

  test water "Does the fountain run?" {
    observe by eye
    takes 1 min
    normal yes
    absent no shows stopped
  }

  test lamp "Is the lamp on the power box on?" {
    observe by eye
    takes 1 min
    normal yes
    absent no shows stopped
  }

  test outlet-works "Does another lamp work at the garden outlet?" {
    observe by eye
    takes 3 min
    normal yes
    absent no shows stopped
  }

  test fuse-resistance "Resistance of the fuse, out of its holder" in power-box {
    checks fuse.blown as open
    measure resistance with multimeter
    takes 4 min
    needs mains isolated
    normal < 1 Ω
    open   otherwise
  }

  gate lockout "Lock out the fountain" {
    controls mains
    warning about mains "Mains voltage can kill. Do every element of this lockout, in this order."
    see "The lockout rules of your workshop, and your local codes"
    prepare "Tell everybody near the fountain that you lock it out." takes 1 min
    shut-down "Turn the switch on the power box to OFF." takes 1 min
    isolate mains "Turn the isolator of the garden outlet to OFF." takes 1 min
    lock mains "Fit your own lock and tag to the isolator." takes 1 min
    release mains "Wait until the lamp is out." 5 s
    prove mains "Prove the multimeter on a known live source. Test every pole for dead. Prove the multimeter again."
        with multimeter proved before and after takes 4 min
    restore "Refit the cover of the power box." takes 1 min
    restore "Tell everybody near the fountain that it goes on." takes 1 min
    restore "Remove your lock and turn the isolator to ON." takes 1 min
  }
}
`,
    'no-water.fault': `// The tree for one complaint, and a worked case that it must solve.
uses "fountain.fault"

tree no-water "No water comes out" of fountain {
  complaint water absent
  note "The maker's instructions and your local codes come before this tree."

  step look "Look at the fountain" {
    do "Turn the switch on the power box to ON." takes 1 min
    test water { normal -> no-fault-found  absent -> lamp-on }
  }

  step lamp-on "Look at the power box" {
    test lamp { normal -> bad-pump  absent -> try-outlet }
  }

  step try-outlet "Try the garden outlet" {
    test outlet-works { normal -> measure-fuse  absent -> no-mains }
  }

  step measure-fuse "Measure the fuse" {
    gate lockout
    test fuse-resistance { normal -> bad-transformer  open -> blown-fuse }
  }

  conclude bad-pump        "The pump is jammed"         { pump.jammed }
  conclude blown-fuse      "The fuse F1 has blown"      { fuse.blown }
  conclude bad-transformer "The transformer T1 is open" { transformer.open }
  refer no-mains "Call a licensed electrician" because "the garden outlet is dead" { outlet.dead }
  refer no-fault-found "No fault found" because "the fountain runs"
}

scenario "The fuse has blown" of no-water {
  fault fuse.blown
  expect blown-fuse within 45 min
}
`,
    'halfsplit.json': `{
  "severities": {},
  "locale": "en"
}
`,
    'README.md': `# A fault isolation workspace

This folder holds fault isolation trees, written in \`.fault\` files.
The garden fountain in it is invented, with all its figures; change it into your own equipment.
Where work can hurt somebody, the maker's instructions, your local codes and licensed practice come first.

| file | what it says |
|---|---|
| \`fountain.fault\` | the equipment: hazards, parts and their faults, tests, a lockout |
| \`no-water.fault\` | the tree for "no water comes out", and a worked case |
| \`halfsplit.json\` | the settings; the folder that holds this file is the workspace |

Try these:

\`\`\`sh
halfsplit check               # verify everything
halfsplit draw no-water       # draw the tree as no-water.svg, which a browser shows
halfsplit export no-water     # write the verified tree as no-water.json
halfsplit explain             # list what verification can find
\`\`\`

Then change something: take out a branch of a test, and check again.
`,
};
