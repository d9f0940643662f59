/** A text with every form of the language, each at least once; its world is invented and stands for no product. */

/** The declarations one by one, each a file of its own. */
export const everyFormParts: readonly string[] = [
    `uses "parts.fault"
accept unused-part because "shown in another tree"`,
    `equipment washer "Glass washer" {
  option feed "Supply" {
    single "One phase" share 70 % duty 3 starts per 1 h
    triple "Three phases" share 30 % duty 12 starts per h
  }
  option rinse "Rinse" for single or triple { cold hot "Hot rinse" }
  exclude triple and hot with not cold because "never built"
  hazard mains "Mains" { electrical 230 V AC for single 400 V AC for triple stored 470 µF through 10 kΩ }
  hazard spray "Hot spray" for hot {
    thermal 85 °C cools in 10 min for hot
    runs down in 4 s  discharges in 1 s  settles in 2 s
    starts by itself for hot
    warning about spray "It scalds."
  }
  zone tank "Tank" for not hot { exposes spray while lid open for hot, mains  category III 600 V for triple  location "below the lid" for cold }
  condition lid "Lid" for feed.single { shut open "Open" bypasses heater, pump }
  condition program { off on }
  supply spur "Mains at the spur" carries mains in tank for single { fault dead "No mains" rate 8 per 1e6 h }
  kind motor-kind "Motor" for single {
    fault open-winding "Winding open" rate 1 per 1e6 h
    test winding "Winding" { checks open-winding as open  measure resistance with meter  needs isolated  normal 20 Ω ± 10 %  open > 2 kΩ }
  }
  part fuse "Fuse" in tank { protects power for single }
  part heater "Heater" in tank for hot {
    in tank for cold
    location "left" for hot
    replace "Change the heater" takes 25 min costs 48 EUR under lockout for hot
    accept few-faults because "only one is known"
    fault cracked "Cracked" weakens rate 2 per 1e6 h at warm, power comes and goes unless lid shut for hot {
      stops for cold
      rate 3 per 1e6 starts for cold
      at warm for cold
      comes and goes for cold
      makes water-warm low or absent unless lid open for hot
      makes winding-drop normal when not lid open
      causes pump.seized for hot, fuse after 10 min
      reset "Press the button"
      note "Seen twice"
    }
    fault tripped "Tripped" only when caused { only when caused for cold }
  }
  part pump is motor-kind "Pump" in tank { fault seized "Seized" }
  flow power "Power" when lid shut for single: mains -> spur -> (fuse -> heater as warm when lid shut for hot or [water-warm, pump.winding] for cold)
    for (single or triple) -> pump feeds pump in water, heater in water for hot
  flow water: (pump with heater) -> [water-warm]
  test water-warm "Water at the glass" in tank at heater for single {
    measure temperature difference with meter for hot
    takes 3 min for hot  costs 2 EUR  needs program on and not lid open or isolated, power flowing for hot
    during "the rinse" 20 s  remembers until cleared  location "at the tap"  in tank for cold
    note "Let it run first" for hot
    picture "tap.svg" "the tap" for hot
    see "Manual, section 4" "https://example.org/manual"
    notice "Wear gloves" for hot
    accept slow-test
    normal 40 .. 60 °C or > 61 °C .. < 65 °C when program on for hot
    low < 30 °C shows weakened, stopped when program on
    warm curve of pump.winding ± 2 K
    odd otherwise
  }
  test winding-drop "Drop" { calculate voltage DC from (spur-volts - 2 V) × mean(spur-volts, pump.winding) / 2
    across spur to heater for hot  through power  normal yes  absent no  odd "flickers" }
  test spur-volts { observe by eye  checks spur.dead as absent for hot, fuse  normal >= 200 V  absent ≤ 3 V }
  test plate "Name plate" { identify feed by eye }
  gate lockout "Lock out" for single {
    controls mains for single, spray
    takes 4 min for hot
    prepare "Tell the others"
    shut-down mains, spray "Stop it" sets program off and lid shut takes 1 min for hot
    release spray "Wait" 4 s
    prove mains "Test for dead" with meter proved before and after
    restore "Take off the lock"
  }
  gate live "Work live" { permits measuring mains for single, spray  instrument category III 600 V  wear "Face shield" for hot }
  instrument probe "Probe" { measures temperature }
  table local-curve from time to level { 0 s = 0 mm  10 s = 4 mm }
  curve loop-curve "Loop" { follows loop pressure gauge 0 .. 10 bar  from 1 bar to 9 bar  note "Ours" for single }
  danger about mains "It can kill." for single
}`,
    `instrument meter "Meter" { measures voltage DC rms 0 .. 600 V resolution 0.1 V accuracy 0.5 % + 3 digits  category III 600 V  note "Ours" }`,
    `table curve "Sensor" from temperature to resistance difference logarithmic { 0 °C = 100 Ω  100 °C = 138.5 Ω }`,
    `curve room-sensor "Room" { follows ntc 10 kΩ at 25 °C beta 3950 K }
curve type-k { follows thermocouple K }
curve hot { follows steinhart-hart 1.129148e-3 2.34125e-4 8.76741e-8 }`,
    `kind valve-kind "Valve" { supply-note-free }`.replace('supply-note-free', 'fault stuck'),
    `procedure motor-check "Check a motor" of washer about motor-kind for single {
  step ohms "Measure" { gate lockout  test it.winding { normal -> good  open -> bad  otherwise -> bad  cannot be read -> bad } }
  result good "Good"  result bad
  cannot be done -> bad for hot
  note "Ten minutes"
}
procedure any-check about part { step one }
procedure test-check about test { step one { test it } }`,
    `tree cold-glass "Glasses come out cold" of washer for single {
  complaint water-warm low, odd when program on mistaken 5 % for hot
  still wrong -> start for hot
  disagree -> ask
  cannot be read -> ask
  caution "Hot water"
  step start "Begin" for single {
    do "Start it" sets program on and lid shut clears pump.seized, fuse replaces heater, pump using meter-lead at pump in tank takes 1 min costs 1 EUR cannot be done -> ask for hot
    gate lockout for hot
    wait 10 min until spray safe "Let it drip" for hot
    restore lockout
    read water-warm, pump.winding for hot
    follow motor-check with pump for hot { good -> second  bad -> broken }
    confirm water-warm normal, low -> second for hot
    go second for cold
    continue with other-tree for triple
    danger about mains "Live" for single
    note "Slowly"
    accept long-step because "one lid"
    test water-warm for single { normal, low -> second for hot  cannot be read -> ask }
  }
  step second { confirm pump.winding for hot { normal -> broken } }
  conclude broken "Heater broken" in order for single {
    heater.cracked for hot, pump
    repair "Clean it" takes 5 min
    unconfirmed because "needs a day" for hot
    leaves gate lockout closed for hot
    still wrong -> start
    note "Tell the customer"
  }
  refer ask "Ask the maker" because "nothing found" for single { spur.dead  leaves lid open }
}`,
    `scenario "A cracked heater" of cold-glass {
  build single, rinse.hot
  fault heater.cracked, fuse
  reads water-warm low
  expect broken within 60 min
  note "As in spring"
  accept slow
}
scenario "Nothing wrong" { fault healthy }`,
];

/** All of them as one file. */
export const everyForm: string = everyFormParts.join('\n');
