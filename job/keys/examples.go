package keys

// What follows are the examples of the sections. Together they are one job, which is
// read by a test; those of parts of a section stand beside what they show.

const kitExample = `kit:
  mic:    {kind: micrometer, resolution: 0.01 mm, mpe: 0.005 mm}
  deep:   {kind: depth-micrometer, resolution: 0.01 mm, zero: 0.004 mm, repeat: 0.004 mm}
  clock:  {kind: dial, resolution: 0.01 mm}
  roll6:  {kind: roller, size: 6 mm, tolerance: 0.002 mm, say: the worn pair is thrown out}
  roll12: {kind: roller, size: 12 mm, tolerance: 0.002 mm}
  tip:    {kind: stylus, size: 3 mm}
  panel:  {kind: readout, resolution: 0.005 mm, mpe: 0.01 mm}
`

const sizesExample = `sizes:
  shank: {kind: diameter, surface: outside, wear: light, make: 0.02 mm, meant: 3/4 in, say: the plunger's straight part}
  guide: {kind: diameter, surface: inside, wear: 0.05 mm, form: 0.02 mm}
  nose:  {kind: diameter, surface: outside}
  taper: {kind: half-angle, guess: 5 deg}
  crest: {kind: diameter, known: 11.03 mm, within: 0.02 mm}
  root:  {kind: diameter, surface: outside}
  pitch: {kind: pitch, known: 14 tpi}
  angle: {kind: angle, known: 55 deg, u: 0.2 deg}
`

const relationsExample = `relations:
  - {that: guide - shank, is: 0.03 mm, within: 0.02 mm, say: it slid when it was new}
  - {that: taper, is: 5 deg, u: 0.1 deg}
`

const placesExample = `places:
  ring: {kind: circle, diameter: guide, guess: [0, 0], say: "the guide, from above"}
  edge: {kind: line, guess: [90 deg, 12]}
`

const readingsExample = `readings:
  - {id: a, by: outside, of: {size: shank}, with: mic, saw: [19.04, 19.05, 19.30],
     at: 12 mm, feel: 0.002 mm, seated: once, set-aside: [2], why: a burr, say: near the collar}
  - {id: b, by: inside, of: {size: guide}, goes: 19.0 mm, stops: 19.1 mm}
  - {id: c, by: formula, that: shank - nose, with: mic, saw: 6.35}
`

const checksExample = `checks:
  - {id: k1, by: outside, of: {size: part.shank}, with: mic, saw: [19.05, 19.06],
     piece: 2, at-temp: 28 C, with-temp: 22 C, in-machine: yes}
  - {id: k2, by: outside, of: {size: shank}, with: mic, saw: 19.05,
     on: old, at: 12 mm, feel: 0.002 mm, seated: once}
  - {id: k3, by: outside, of: {size: part.nose}, with: mic, say: to be read yet}
  - {id: k4, by: formula, that: part.shank - part.nose, with: mic, saw: [6.34, 6.53],
     set-aside: [1], why: figures swapped}
  - {id: k5, by: outside, of: {size: part.nose}, goes: 12.75 mm, stops: 12.65 mm}
`

const partExample = `part:
  name: Index plunger
  kind: turned
  material: EN8 condition Q
  quantity: 2
  holds: 0.02 mm
  chance: 99 %
  revision: B
  sizes:
    shank: {kind: diameter, goes-in: guide, clearance: 0.01..0.04 mm, rework: easy}
    nose:  {kind: diameter, surface: outside, copies: nose, within: 0.02 mm}
    body:  {kind: length, is: 46 mm, within: 0.2 mm}
    screw: {thread: 7/16 BSW, class: medium, hand: right}
  stacks:
    whole: {that: part.body + 16 mm, wanted: 61..63 mm}
  shape:
    steps:
      - {diameter: shank, length: body}
      - {thread: screw, length: 16 mm}
`

const jointsExample = `joints:
  - id: knob
    stud: {of: part.screw, material: EN8 condition Q, section: 20 mm}
    into: {thread: 7/16 BSW, class: medium, length: 7 mm, material: CZ121, outside: 22 mm, around: 300 deg}
    head: {kind: tee, height: 6 mm, across: 20 mm, width: 16 mm, slot: 11 mm, material: EN8 condition Q}
    sheared: [{id: pin, kind: pin, diameter: 4 mm, length: 12 mm, planes: 2, at: 11 mm,
               material: EN8 condition Q, against: CZ121}]
    tighten: {torque: 12 N m, friction: 0.12..0.20}
    service: 900 N
    spanner: 150 mm
    holds: work
    fuse: nut
    say: the knob on the tail
  - {stud: {thread: M8, grade: "8.8"}, into: {thread: M8, grade: "8"}, tighten: {preload: 9 kN}}
  - {sheared: [{id: key, kind: key, width: 6 mm, height: 6 mm, length: 30 mm}]}
  - {press: {diameter: 30 mm, inside: 12 mm, outside: 50 mm, length: 20 mm, interference: 0.02..0.04 mm,
             inner: EN8 condition Q, outer: CZ121, friction: 0.1..0.15, warmer: 40}}
`

const shopExample = `shop:
  lathe: {kind: lathe, speeds: [35, 60, 105, 180], leadscrew: 8 tpi, fixed-ratio: 1/1, gearbox: [1/2, 1/1],
          gears: [20, 25, 30, 127], gear-clearance: 12,
          dials: {cross: {division: 0.001 in, turn: 0.1 in, reads: diameter}}, say: the four-jaw is at the end of the bench}
  mill:  {kind: mill, speeds: [90, 200, 400], readout: true, travels: {x: 400 mm, y: 150 mm},
          rotary-table: {ratio: 40, plates: [15, 16, 17], divisions: 60, gears: [24, 28]},
          cutters: {em12: {kind: end-mill, diameter: 12 mm, teeth: 4, material: hss}}}
  saw:   {kind: saw, saw-kerf: 2 mm}
`

const workExample = `work:
  - {id: saw, do: saw the bar for two, on: saw, makes: part, needs: []}
  - {id: turn, do: turn the shank, on: lathe, makes: part, needs: [saw], leave: 0.2 mm, say: between centres}
  - do: mill the flats
    on: mill
    cutter: em12
    centre: [0, 0]
    datum: {at: [0, 0], edge-finder: 10 mm, sides: [left, front], turned: 30 deg}
    hold:
      contacts:
        left:  {kind: jaw, at: [0, 10], towards: 0 deg, width: 40 mm}
        right: {kind: screw, at: [60, 10], towards: 180 deg, clamping: 4 kN}
        strap: {kind: clamp, at: [30, 20], clamping: 6 kN, bolt: 30 mm, heel: 80 mm}
      force: 500 N
      at: [30, 15]
      towards: 90 deg
      friction: 0.12
  - {do: take the dividing head down, apart: mill}
  - {do: put it up again, back: mill}
`

const surveysExample = `surveys:
  - {id: cross, kind: lost-motion, of: cross slide, date: 2024-03-31, with: clock,
     at: {0: 0.08, 60: [0.12, 0.13], 120: 0.07}, end-float: 0.02, within: 0.1 mm}
  - {kind: screw-pitch, of: cross slide, date: 2024-03-31, with: clock, pitch: 10 tpi,
     reads: error, at: {0: 0, 50: 0.01, 100: 0.03}}
  - {kind: straightness, date: 2024-03-31, with: clock, reference: 0.005 mm,
     at: {0: 0, 100: 0.01, 200: 0.03, 300: 0.02}}
  - {kind: slide-play, date: 2024-03-31, with: clock, reads: feeler, angle: 55 deg,
     gib-near: 6.05, gib-far: 5.02, gib-with: mic, clearance: 0.02 mm, at: {0: 0.05, 180: 0.08}}
  - {kind: two-collar, date: 2024-03-31, with: mic, near: 24.98, far: 25.01, apart: 150 mm, held: chuck}
  - {kind: test-bar, date: 2024-03-31, with: clock,
     up-near: [0, 0.01], up-far: [0.03, 0.05], side-near: [0, 0.01], side-far: [0.01, 0.03], apart: 200 mm}
  - {kind: facing, date: 2024-03-31, with: clock, centre: 0, rim: 0.02, across: 70 mm}
  - {kind: ram, date: 2024-03-31, with: clock, feet: 400 mm, at: {0: 0, 200: 0.03}}
  - {kind: dovetail, date: 2024-03-31, with: mic, side: male, angle: 55 deg,
     rollers: [{at: 0, roller: roll12, saw: 93.10}, {at: 150, roller: roll12, raised: 4 mm, saw: 95.04}],
     say: over two rollers}
`
