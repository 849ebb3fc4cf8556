package jobfile_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// example is the first example of the format's description, without its
// comments.
const example = `oddleg: 1                       # version of this format
job: Index plunger and its bush
machine: {what: "dividing table", built: 1936, country: GB}     # all optional
units: mm

kit:                            # instruments and gauge pieces of this job
  mic:    {kind: micrometer, resolution: 0.01 mm, mpe: 0.01 mm}
  deep:   {kind: depth-micrometer, resolution: 0.01 mm, mpe: 0.02 mm}
  roll6:  {kind: roller, size: 6 mm, tolerance: 0.002 mm}
  block:  {kind: block, size: 20 mm, tolerance: 0.001 mm}
  ball14: {kind: ball, size: 14 mm, tolerance: 0.002 mm}
  ball12: {kind: ball, size: 15/32 in, tolerance: 0.0001 in}

sizes:                          # what is sought
  shank:  {kind: diameter, surface: outside, wear: light, say: the plunger's straight part}
  nose:   {kind: diameter, surface: outside, wear: light}
  taper:  {kind: half-angle, guess: 5 deg}                              # guess: optional start value
  mouth:  {kind: diameter, surface: inside, wear: light}
  socket: {kind: half-angle}
  collar: {kind: diameter, known: 1 1/4 in, within: 0.02}               # known beforehand
  step:   {kind: width, surface: none}                                  # tied to the others by a relation

readings:
  - {id: a, by: outside,            of: {size: shank},                                        with: mic,  saw: [19.02, 19.03, 19.02]}
  - {id: b, by: taper-over-rollers, of: {small-end: nose, half-angle: taper, roller: roll6},  with: mic,  saw: [25.24, 25.25]}
  - {id: c, by: taper-over-rollers, of: {small-end: nose, half-angle: taper, roller: roll6, block: block}, with: mic, saw: 28.75}
  - {id: d, by: taper-ball-depth,   of: {mouth: mouth, half-angle: socket, ball: ball14},     with: deep, saw: 4.12}
  - {id: e, by: taper-ball-depth,   of: {mouth: mouth, half-angle: socket, ball: ball12},     with: deep, saw: [17.18, 17.19]}
  - {id: f, by: formula,            that: "(mouth - nose)/(2*tan(taper))",                    with: deep, saw: [18.85, 18.86]}

relations:
  - {that: collar - shank, is: 2*step}                 # exact
  - {that: taper - socket, is: 0 deg, within: 0.1 deg} # or within a tolerance
`

// otherThings has all that the example leaves out.
const otherThings = `oddleg: 1
job: other things
units: in
kit:
  cal: {kind: caliper, resolution: 0.001 in}
  rod: {kind: rod, size: 3/8}
  tip: {kind: stylus, size: 2 mm}
  readout: {kind: readout, repeat: 0.0002, zero: 0}
  comb: {kind: other, mpe: 0.5 deg}
  slip: {kind: other, size: 0.1}
sizes:
  bore: {kind: diameter, surface: inside, wear: heavy, form: 0.05 mm, make: 0.03 mm, meant: 1 1/8 in}
  gap: {kind: width, wear: 0.02, known: 2 9/64, u: 1e-3}
  off: {kind: offset, guess: -0.5}
  lead: {kind: pitch, known: 14 tpi}
  flat: {kind: angle, known: 1:20}
  half: {kind: half-angle, known: 1:20}
  ratio: {kind: number, guess: -1/2}
readings:
  - {id: g, by: inside, of: {size: bore}, goes: 7/16 in, stops: 29/64 in}
  - {id: h, by: over-plugs, of: {from: h1, to: h3, plug-1: rod, plug-2: 0.375}, with: cal, saw: 5.36, feel: 0.02 mm, set-aside: all, why: plate bent}
  - {id: t, by: touch, of: {circle: ring, stylus: tip, side: -1}, with: readout, saw: [[5.51, 0.2], [-5.48, 0.3], [0.1, 5.5]]}
  - {id: u, by: touch, of: {line: edge, stylus: tip, side: 1}, with: readout, saw: [-1, 2]}
  - {id: v, by: depth, of: {size: off}, with: cal, saw: [-0.5, 0, 1 1/8], at: -3, seated: once, set-aside: [0, 2], say: NO}
  - {id: w, by: protractor, of: {angle: flat}, with: comb, saw: [1:20, 5d 30m]}
  - {id: x, by: formula, that: bore/gap, with: cal, saw: -1/2}
  - {id: y, by: pitches, of: {pitch: 20 tpi, n: 10}, with: cal, saw: 0.5}
  - {id: z, by: outside, of: {size: gap}, goes: slip, stops: 0.05}
relations:
  - {that: gap, is: 2 9/64, u: 0.001, say: "it was"}
plans:
  plate: {holes: [h1, h2, h3], guess: {h3: [1.5, -1.4]}}
places:
  ring: {kind: circle, diameter: bore, guess: [0, -1]}
  edge: {kind: line, guess: [90 deg, 12]}
  hub: {kind: circle, diameter: 1/2}
threads: {stem: {pitch: lead}}
part: {name: plate, kind: plate}
joints: []
shop:
work: [{do: b}]
checks: []
`

// length and angle read a quantity as the file's own reader must.
func length(text string) unit.Quantity {
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return q
}

func angle(text string) unit.Quantity {
	q, err := unit.ParseAngle(text)
	if err != nil {
		panic(err)
	}
	return q
}

func at(line, column int) trade.Pos { return trade.Pos{Line: line, Column: column} }

// mustRead reads a right file.
func mustRead(t *testing.T, source string) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func same(t *testing.T, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\ngot  %+v\nwant %+v", what, got, want)
	}
}

// TestExample holds the example to what is written in it; places are counted
// by hand.
func TestExample(t *testing.T) {
	job := mustRead(t, example)
	same(t, "name", job.Name, "Index plunger and its bush")
	same(t, "machine", job.Machine, trade.Machine{What: "dividing table", Built: 1936, Country: "GB"})
	same(t, "units", job.Units, unit.Millimetre)
	same(t, "instruments", job.Instruments, []trade.Instrument{
		{ID: "mic", Kind: trade.Micrometer, Resolution: length("0.01 mm"), MPE: length("0.01 mm"), Pos: at(7, 3)},
		{ID: "deep", Kind: trade.DepthMicrometer, Resolution: length("0.01 mm"), MPE: length("0.02 mm"), Pos: at(8, 3)},
	})
	same(t, "pieces", job.Pieces, []trade.Piece{
		{ID: "roll6", Kind: trade.Roller, Size: length("6 mm"), Tolerance: length("0.002 mm"), Pos: at(9, 3)},
		{ID: "block", Kind: trade.Block, Size: length("20 mm"), Tolerance: length("0.001 mm"), Pos: at(10, 3)},
		{ID: "ball14", Kind: trade.Ball, Size: length("14 mm"), Tolerance: length("0.002 mm"), Pos: at(11, 3)},
		{ID: "ball12", Kind: trade.Ball, Size: length("15/32 in"), Tolerance: length("0.0001 in"), Pos: at(12, 3)},
	})
	same(t, "sizes", job.Sizes, []trade.Size{
		{
			ID: "shank", Kind: trade.Diameter, Surface: trade.Outside, Wear: trade.LightWear,
			Say: "the plunger's straight part", Pos: at(15, 3),
		},
		{ID: "nose", Kind: trade.Diameter, Surface: trade.Outside, Wear: trade.LightWear, Pos: at(16, 3)},
		{ID: "taper", Kind: trade.HalfAngle, Guess: angle("5 deg"), Pos: at(17, 3)},
		{ID: "mouth", Kind: trade.Diameter, Surface: trade.Inside, Wear: trade.LightWear, Pos: at(18, 3)},
		{ID: "socket", Kind: trade.HalfAngle, Pos: at(19, 3)},
		{
			ID: "collar", Kind: trade.Diameter, Pos: at(20, 3),
			Known: trade.Prior{Value: length("1 1/4 in"), Within: length("0.02 mm"), Pos: at(20, 35)},
		},
		{ID: "step", Kind: trade.Width, Surface: trade.NoSurface, Pos: at(21, 3)},
	})
	same(t, "number of readings", len(job.Readings), 6)
	same(t, "reading b", job.Readings[1], trade.Reading{
		ID: "b", By: "taper-over-rollers", With: "mic", Pos: at(25, 5),
		Of: []trade.Arg{
			{Role: "small-end", ID: "nose", Pos: at(25, 53)},
			{Role: "half-angle", ID: "taper", Pos: at(25, 71)},
			{Role: "roller", ID: "roll6", Pos: at(25, 86)},
		},
		Saw: []trade.Seen{{X: length("25.24 mm"), Pos: at(25, 113)}, {X: length("25.25 mm"), Pos: at(25, 120)}},
	})
	f := job.Readings[5]
	f.That = written(f.That)
	same(t, "reading f", f, trade.Reading{
		ID: "f", By: trade.FormulaMethod, With: "deep", Pos: at(29, 5),
		That: trade.Formula{Text: "(mouth - nose)/(2*tan(taper))", Pos: at(29, 43)},
		Saw:  []trade.Seen{{X: length("18.85 mm"), Pos: at(29, 113)}, {X: length("18.86 mm"), Pos: at(29, 120)}},
	})
	for i := range job.Relations {
		r := &job.Relations[i]
		r.That, r.Is = written(r.That), written(r.Is)
	}
	same(t, "relations", job.Relations, []trade.Relation{
		{
			That: trade.Formula{Text: "collar - shank", Pos: at(32, 12)}, Is: trade.Formula{Text: "2*step", Pos: at(32, 32)},
			Pos: at(32, 5),
		},
		{
			That: trade.Formula{Text: "taper - socket", Pos: at(33, 12)}, Is: trade.Formula{Text: "0 deg", Pos: at(33, 32)},
			Within: angle("0.1 deg"), Pos: at(33, 5),
		},
	})
}

// written returns a formula without what it was read as.
func written(f trade.Formula) trade.Formula { return trade.Formula{Text: f.Text, Pos: f.Pos} }

func TestOtherThings(t *testing.T) {
	job := mustRead(t, otherThings)
	same(t, "units", job.Units, unit.Inch)
	bore, gap := job.Size("bore"), job.Size("gap")
	same(t, "form, make, meant", []any{bore.Form, bore.Make, bore.Meant}, []any{length("0.05 mm"), length("0.03 mm"), "1 1/8 in"})
	same(t, "typical wear", []any{gap.Wear, gap.TypicalWear}, []any{trade.TypicalWear, length("0.02 in")})
	same(t, "known, u", []unit.Quantity{gap.Known.Value, gap.Known.U}, []unit.Quantity{length("2 9/64 in"), length("0.001 in")})
	same(t, "negative offset", job.Size("off").Guess, length("-0.5 in"))
	same(t, "pitch", job.Size("lead").Known.Value.String(), "14 tpi")
	same(t, "half angle as a taper", job.Size("half").Known.Value, angle("1:20"))
	// A taper of 1 in 20 on the diameter opens by 2·atan(1/40).
	if got, want := job.Size("flat").Known.Value.Inside(), 2*math.Atan(1.0/40); math.Abs(got-want) > 1e-16 {
		t.Errorf("included angle as a taper: %v rad, want %v", got, want)
	}
	same(t, "kind other", []any{job.Instrument("comb").MPE, job.Piece("slip").Size}, []any{angle("0.5 deg"), length("0.1 in")})
	same(t, "goes", job.Reading("g").Goes, trade.Bound{Value: length("7/16 in"), Pos: at(20, 49)})
	same(t, "a piece goes", job.Reading("z").Goes.ID, "slip")
	same(t, "plan", job.Plans, []trade.Plan{{
		ID: "plate", Holes: []string{"h1", "h2", "h3"}, Pos: at(32, 3),
		Guess: map[string]trade.Point{"h3": {X: length("1.5 in"), Y: length("-1.4 in")}},
	}})
	same(t, "circle", job.Place("ring"), &trade.Place{
		ID: "ring", Kind: trade.Circle, Diameter: trade.Bound{ID: "bore", Pos: at(34, 34)}, Pos: at(34, 3),
		Guess: [2]unit.Quantity{length("0 in"), length("-1 in")},
	})
	same(t, "line", job.Place("edge").Guess, [2]unit.Quantity{angle("90 deg"), length("12 in")})
	same(t, "plain diameter", job.Place("hub").Diameter.Value, length("1/2 in"))
}

func TestOtherReadings(t *testing.T) {
	job := mustRead(t, otherThings)
	plugs := job.Reading("h")
	same(t, "holes and a plain plug", plugs.Of, []trade.Arg{
		{Role: "from", ID: "h1", Pos: at(21, 40)},
		{Role: "to", ID: "h3", Pos: at(21, 48)},
		{Role: "plug-1", ID: "rod", Pos: at(21, 60)},
		{Role: "plug-2", Value: length("0.375 in"), Pos: at(21, 73)},
	})
	same(t, "set aside", []any{plugs.Feel, plugs.Saw[0].SetAside, plugs.Why}, []any{length("0.02 mm"), true, "plate bent"})
	touches := job.Reading("t").Saw
	same(t, "touches", len(touches), 3)
	same(t, "a touch", touches[1], trade.Seen{X: length("-5.48 in"), Y: length("0.3 in"), Pos: at(22, 101)})
	same(t, "one touch", job.Reading("u").Saw, []trade.Seen{{X: length("-1 in"), Y: length("2 in"), Pos: at(23, 84)}})
	same(t, "a line is touched in the role of the circle", job.Reading("u").Of[0], trade.Arg{Role: "circle", ID: "edge", Pos: at(23, 35)})
	depth := job.Reading("v")
	same(t, "some set aside", []bool{depth.Saw[0].SetAside, depth.Saw[1].SetAside, depth.Saw[2].SetAside}, []bool{true, false, true})
	same(t, "circumstances", []any{depth.At, depth.SeatedOnce, depth.Say, depth.Saw[2].X}, []any{length("-3 in"), true, "NO", length("1 1/8 in")})
	angles := job.Reading("w").Saw
	same(t, "angles", []unit.Quantity{angles[0].X, angles[1].X}, []unit.Quantity{angle("1:20"), angle("5.5 deg")})
	minusHalf, _ := unit.New(-1, 2, unit.One)
	same(t, "plain number", job.Reading("x").Saw[0].X, minusHalf)
	ten, _ := unit.New(10, 1, unit.One)
	same(t, "count", job.Reading("y").Of[1], trade.Arg{Role: "n", Value: ten, Pos: at(27, 49)})
}

// TestSameInOtherWords reads the example as other systems write it.
func TestSameInOtherWords(t *testing.T) {
	want := mustRead(t, example)
	unread(reflect.ValueOf(want).Elem())
	for name, source := range map[string]string{
		"carriage returns":  strings.ReplaceAll(example, "\n", "\r\n"),
		"returns alone":     strings.ReplaceAll(example, "\n", "\r"),
		"byte-order mark":   "\ufeff" + example,
		"no last line end":  strings.TrimRight(example, "\n"),
		"tabs before notes": strings.ReplaceAll(example, " #", "\t#"),
		"blank line ends":   strings.ReplaceAll(example, "\n", "  \n"),
	} {
		job := mustRead(t, source)
		unread(reflect.ValueOf(job).Elem())
		same(t, name, job, want)
	}
	marked := mustRead(t, "---\n"+example+"...\n")
	same(t, "document marks", marked.Sizes[0].Pos, at(16, 3))
}

// TestWrappedLines: a text inside braces may go on in the next line, and a
// minus at its beginning is no hyphen of a list.
func TestWrappedLines(t *testing.T) {
	job := mustRead(t, `oddleg: 1
job: wrapped
sizes:
  a: {kind: width, say: a text that
    goes on}
  b: {kind: width, say:
    begins later}
  c:
    kind: width
    say: >-
      folded
      text
relations:
  - {that: a
    - b, is: c}
  - that: a - b
    is: "c -
      c"
`)
	same(t, "say", []string{job.Sizes[0].Say, job.Sizes[1].Say, job.Sizes[2].Say}, []string{"a text that goes on", "begins later", "folded text"})
	same(t, "that", []string{job.Relations[0].That.Text, job.Relations[1].Is.Text}, []string{"a - b", "c - c"})
}
