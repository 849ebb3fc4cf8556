package plan_test

import (
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

const stud = `oddleg: 1
job: Stud
part:
  kind: turned
  material: EN8
  quantity: 3
  sizes: {screw: {thread: 1/2 BSW}}
  shape:
    steps:
      - {thread: screw, length: 20}
      - {diameter: 12, to: 14, length: 25}
      - {hexagon: 18, length: 9}
`

const cover = `oddleg: 1
job: Cover
part:
  kind: plate
  sizes: {screw: {thread: M8}}
  shape: {thickness: 8, disc: 90, holes: [{at: [0, 0], thread: screw}, {at: [0, 0], circle: 60, count: 6, diameter: 6}]}
`

const shoe = `oddleg: 1
job: Shoe
part:
  kind: sector-shoe
  shape: {outer: 70, inner: 50, angle: 40 deg, height: 15, stem: {diameter: 10, length: 30}}
`

const shop = `shop:
  old: {kind: lathe}
  lathe: {kind: lathe, leadscrew: 8 tpi, gears: [20, 40, 50, 60, 80]}
  mill: {kind: mill, rotary-table: {ratio: 40, plates: [15, 18]}, cutters: {em: {kind: end-mill, diameter: 12}, d: {kind: drill, diameter: 6}}}
  drill: {kind: drill, cutters: {t: {kind: tap, diameter: 8}}}
  saw: {kind: saw, saw-kerf: 1.5}
work:
`

// planned reads a job and plans it.
func planned(t *testing.T, text string) (*plan.Plan, error) {
	t.Helper()
	job, err := jobfile.Read("", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	made, err := fit.Fit(t.Context(), found, nil)
	if err != nil {
		t.Fatal(err)
	}
	model, err := part.Build(job, made, found)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Make(t.Context(), job, model)
}

// outline says what stands in each step, for comparison.
func outline(plan *plan.Plan) []string {
	var list []string
	for _, s := range plan.Steps {
		var has []string
		add := func(is bool, what string) {
			if is {
				has = append(has, what)
			}
		}
		add(s.Held != nil, "held")
		add(s.Speeds != nil, "speeds")
		add(s.Arcs != nil, "arcs")
		add(s.Places != nil, "places")
		for _, d := range s.Divided {
			add(true, d.What)
		}
		for _, c := range s.Threads {
			add(true, "thread "+c.Name)
			add(c.Gears != nil, "gears")
		}
		for _, c := range s.Taps {
			add(true, "tap "+c.Name)
		}
		add(len(s.Tapers) > 0, "taper")
		name := "none"
		if s.Operation != nil {
			name = s.Operation.ID
		}
		if s.Machine != nil {
			name += " on " + s.Machine.ID
		}
		list = append(list, name+": "+strings.Join(has, ", "))
	}
	return list
}

// TestPlan: everything stands once, with the operation that suits it best
// (constructed).
func TestPlan(t *testing.T) {
	for name, c := range map[string]struct {
		job  string
		want []string
	}{
		"no shop": {stud, []string{"none: thread screw, taper"}},
		"no order": {stud + shop, []string{
			"none on mill: hexagon", "none on lathe: thread screw, gears, taper",
		}},
		"in order": {stud + shop + `
  - {id: cut, do: saw, on: saw, makes: part}
  - {id: turn, do: rough it, on: lathe, makes: part}
  - {id: screw, do: cut the thread, on: lathe, makes: part}
  - {id: flats, do: mill the hexagon, on: mill, makes: part, cutter: em}
`, []string{
			"cut on saw: ", "turn on lathe: speeds, taper", "screw on lathe: speeds, thread screw, gears", "flats on mill: speeds, hexagon",
		}},
		"not of the part": {stud + shop + "  - {id: chuck, do: true up the chuck, on: lathe}\n", []string{
			"chuck on lathe: ", "none on mill: hexagon", "none on lathe: thread screw, gears, taper",
		}},
		"holes": {cover + shop + `
  - {id: edge, do: mill the edge, on: mill, makes: part, cutter: em}
  - {id: holes, do: make the rest, on: mill, makes: part, cutter: d}
  - {id: tap, do: finish, on: drill, makes: part, cutter: t}
`, []string{"edge on mill: ", "holes on mill: places, 6 holes", "tap on drill: tap screw"}},
		"tapped on the mill": {cover + strings.Replace(shop, "  drill: {kind: drill, cutters: {t: {kind: tap, diameter: 8}}}\n", "", 1) + `
  - {id: turn, do: face it, on: lathe, makes: part}
  - {id: holes, do: make the rest, on: mill, makes: part, cutter: d}
`, []string{"turn on lathe: ", "holes on mill: places, 6 holes, tap screw"}},
		"shoe":                  {shoe + shop + "  - {id: faces, do: mill both, on: mill, makes: part, cutter: em, leave: 0.2, centre: [5, 6]}\n", []string{"faces on mill: arcs"}},
		"shoe without a cutter": {shoe + shop + "  - {id: faces, do: mill both, on: mill, makes: part}\n", []string{"faces on mill: ", "none on mill: "}},
	} {
		plan, err := planned(t, c.job)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := outline(plan); !slices.Equal(got, c.want) {
			t.Errorf("%s:\ngot  %q\nwant %q", name, got, c.want)
		}
	}
}

// TestPlanSaysWhatIsLacking: what is not known is a note, what cannot be is a fault
// at its place.
func TestPlanSaysWhatIsLacking(t *testing.T) {
	plan, err := planned(t, shoe+shop)
	if err != nil {
		t.Fatal(err)
	}
	wantText(t, "no cutter", plan.Steps[0].Notes, "name a cutter")
	if kerf := plan.Stock.Plan.Kerf; kerf != 1.5 {
		t.Errorf("the saw takes %v, want 1.5", kerf)
	}
	_, err = planned(t, strings.Replace(shoe+shop+"  - {do: mill, on: mill, makes: part, cutter: em}\n", "diameter: 12", "diameter: 110", 1))
	if faults, ok := err.(trade.Faults); !ok || faults[0].Pos != (trade.Pos{Line: 13, Column: 5}) || !strings.Contains(faults[0].Text, "hollow") {
		t.Errorf("a cutter too large: %v", err)
	}
}

// TestPlanFromADatum: holes are placed where the datum is written, from the edges
// that the finder touches; one that is used by nothing is noted (constructed).
func TestPlanFromADatum(t *testing.T) {
	job := cover + shop +
		"  - {id: d, do: drill, on: drill, makes: part, cutter: t, datum: {at: [45, 45], edge-finder: 6, sides: [right, back]}}\n" +
		"  - {id: m, do: drill the holes, on: mill, makes: part, cutter: d}\n"
	plan, err := planned(t, job)
	if err != nil {
		t.Fatal(err)
	}
	c := plan.Steps[0].Places
	if c == nil || c.Touches[0] != (lathe.Touch{Axis: "x", Set: 3}) || c.Touches[1] != (lathe.Touch{Axis: "y", Set: 3}) || len(c.Warnings) > 0 {
		t.Fatalf("%+v", c)
	}
	if at := c.Holes[0].Readout; at.X != -45 || at.Y != -45 {
		t.Errorf("the first hole is at %v, want -45, -45", at)
	}
	if plan, err = planned(t, strings.Replace(job, "at: [45, 45]", "at: [40, 45]", 1)); err != nil {
		t.Fatal(err)
	}
	if scenes := plan.Scenes(plan.Steps[0]); len(scenes) != 1 {
		t.Errorf("%d pictures of a step that only places holes", len(scenes))
	}
	for _, s := range plan.Steps {
		want := 0
		for _, there := range []bool{s.Held != nil, s.Places != nil} {
			if there {
				want++
			}
		}
		if s.Arcs != nil {
			want += len(s.Arcs.Scenes())
		}
		if got := len(plan.Scenes(s)); got != want {
			t.Errorf("%d pictures of a step, want %d", got, want)
		}
	}
	wantText(t, "off the edge", []string{unit.Join(plan.Steps[0].Places.Warnings, "; ").Shown(unit.View{})}, "5.000 mm off the right edge")
	_, err = planned(t, strings.Replace(job, "sides: [right, back]", "sides: [right, back], turned: 30", 1))
	written := trade.Pos{Line: 14, Column: len("  - {id: d, do: drill, on: drill, makes: part, cutter: t, datum: ") + 1}
	if faults, ok := err.(trade.Faults); !ok || !strings.Contains(faults[0].Text, "askew") || faults[0].Pos != written {
		t.Errorf("askew: %v, want it at %v", err, written)
	}
	left := strings.Replace(strings.Replace(job, "[right, back]", "[left, front]", 1), "at: [45, 45]", "at: [-45, -45]", 1)
	if plan, err = planned(t, left); err != nil {
		t.Fatal(err)
	}
	c = plan.Steps[0].Places
	if c.Touches[0] != (lathe.Touch{Axis: "x", Set: -3}) || c.Touches[1] != (lathe.Touch{Axis: "y", Set: -3}) || len(c.Warnings) > 0 || c.Holes[0].Readout.X != 45 {
		t.Errorf("from the left and the front: %+v", c)
	}
	if plan, err = planned(t, shoe+shop+"  - {id: faces, do: mill both, on: mill, makes: part, cutter: em, datum: {at: [0, 0]}}\n"); err != nil {
		t.Fatal(err)
	}
	wantText(t, "a datum for nothing", plan.Steps[0].Notes, "datum is not used")
}

// TestPlanInTheOrderThatWorks: steps stand in the order found, and what a table
// cannot divide by is a note.
func TestPlanInTheOrderThatWorks(t *testing.T) {
	plan, err := planned(t, stud+strings.Replace(shop, "{ratio: 40, plates: [15, 18]}", "{ratio: 40}", 1)+
		"  - {id: strip, do: take the slide off, apart: lathe}\n  - {id: turn, do: turn it, on: lathe, makes: part}\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := outline(plan); !slices.Equal(got, []string{"turn on lathe: speeds, thread screw, gears, taper", "strip: ", "none on mill: "}) {
		t.Errorf("%q", got)
	}
	wantText(t, "a table with nothing to divide by", plan.Steps[2].Notes, "neither hole circles")
}
