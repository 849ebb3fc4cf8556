package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/say"
)

// bent is a rise that goes with the square of a throw near zero, an angle, and
// a go / no-go pair.
const bent = head + `
sizes:
  throw: {kind: offset, guess: 0.2 mm}
  rise:  {kind: offset}
  lean:  {kind: angle}
  slot:  {kind: width}
  lost:  {kind: width}
readings:
  - {id: a, by: formula, that: throw + 1 mm, goes: 0.9 mm, stops: 1.2 mm}
  - {id: b, by: protractor, of: {angle: lean}, with: pro, saw: 30.0 deg}
  - {id: c, by: inside, of: {size: slot}, goes: 9.9 mm, stops: 10.1 mm}
relations:
  - {that: rise*0.1 mm, is: throw^2}
`

func TestSimulation(t *testing.T) {
	r := adjusted(t, bent)
	s := simulate.Sizes(r, 20_000, 3)
	var page bytes.Buffer
	if err := Simulation(&page, r, s, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Simulated 20000 times (seed 3)",
		"worked out, mm, ± 95 %",
		"lean   30.00° ± ",
		"agrees\n",
		"10.00 ± 0.11",
		"narrower\n",
		"Where they differ",
	} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("no %q in\n%s", want, page.String())
		}
	}
	if strings.Contains(page.String(), "lost") {
		t.Errorf("a size that is not determined is simulated:\n%s", page.String())
	}
}

// TestSimulationJSON compares degrees and mm with the closed form of the
// rectangle ±0.15 mm about 0.05 mm: the mean of its square over 0.1 mm.
func TestSimulationJSON(t *testing.T) {
	r := adjusted(t, bent)
	var page bytes.Buffer
	const trials = 20_000
	if err := JSON(&page, r, WithSimulation(simulate.Sizes(r, trials, 3))); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(page.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	near := func(want, within float64, path ...any) {
		t.Helper()
		if got := at(t, out, path...).(float64); !(math.Abs(got-want) <= within) {
			t.Errorf("%v is %v, want %v ± %v", path, got, want, within)
		}
	}
	near(trials, 0, "simulation", "trials")
	near(0, 0, "simulation", "failed")
	near(3, 0, "simulation", "seed")
	u := at(t, out, "sizes", "lean", "u").(float64)
	near(30, 4*u/math.Sqrt(trials), "simulation", "sizes", "lean", "mean")
	near((0.05*0.05+0.15*0.15/3)/0.1, 4*0.15/math.Sqrt(trials), "simulation", "sizes", "rise", "mean")
	if at(t, out, "simulation", "sizes", "rise", "agrees") != false || at(t, out, "simulation", "sizes", "lean", "agrees") != true {
		t.Error("what agrees and what does not is told wrongly")
	}
	if _, there := decoded(t, r)["simulation"]; there {
		t.Error("the JSON has a simulation that nobody asked for")
	}
}

func TestRemarkOnEveryMove(t *testing.T) {
	seen := map[string]bool{}
	for low := -1; low <= 1; low++ {
		for high := -1; high <= 1; high++ {
			seen[say.RemarkOn(low, high)] = true
		}
	}
	if len(seen) != 9 {
		t.Errorf("%d different remarks on 9 different moves", len(seen))
	}
}
