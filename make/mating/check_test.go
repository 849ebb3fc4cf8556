package mating_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// answers reads a job and answers for its mating shapes.
func answers(t *testing.T, file string, data []byte, seed uint64) ([]mating.Answer, error) {
	t.Helper()
	job, err := jobfile.Read(file, data)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	f, err := fit.Fit(t.Context(), r, nil)
	if err != nil {
		t.Fatal(err)
	}
	return mating.Check(t.Context(), r, f, seed)
}

// job is a job of sizes known beforehand with mating shapes.
func job(sizes, part, mates string) []byte {
	return []byte("oddleg: 1\njob: constructed\nunits: mm\nsizes:\n" + sizes +
		"part:\n  kind: key\n  sizes:\n" + part + "  mates:\n" + mates)
}

func one(t *testing.T, data []byte) mating.Answer {
	t.Helper()
	list, err := answers(t, "constructed.yaml", data, 1)
	if err != nil || len(list) != 1 {
		t.Fatalf("%d answers: %v", len(list), err)
	}
	return list[0]
}

// within says how far a chance found in 2,000 draws may be from the true one:
// 99.9 % of a binomial count.
func within(p float64) float64 { return 3.29 * math.Sqrt(p*(1-p)/2000) }

// TestChanceOfAKey: sides and top are independent; the key is made anywhere
// within ±0.02, the slot and the depth are normal. The true chance is worked out
// from a million draws of the closed conditions, w ≤ slot and h ≤ depth.
func TestChanceOfAKey(t *testing.T) {
	a := one(t, job(`  slot: {kind: width, known: 8.03, u: 0.015}
  deep: {kind: depth, known: 7.02, u: 0.03}
`, `    w: {kind: width, is: 8.01, within: 0.02}
`, `    k: {pair: key-in-keyway, of: {width: part.w, height: 7 mm, shaft-width: slot, shaft-depth: deep - 3, hub-width: 8.2 mm, hub-depth: 3 mm}}
`))
	random := rand.New(rand.NewPCG(1, 1))
	const n = 1_000_000
	in, gaps := 0.0, 0.0
	for range n {
		slot, deep := 8.03+0.015*random.NormFloat64(), 7.02+0.03*random.NormFloat64()
		w := 8.01 + 0.02*(2*random.Float64()-1)
		gap := min((slot-w)/2, deep-7)
		if gap >= 0 {
			in++
		}
		if gap < a.Spread[1] {
			gaps++
		}
	}
	if p := in / n; math.Abs(a.Chance-p) > within(p) {
		t.Errorf("chance %g, drawn %g", a.Chance, p)
	}
	if p := gaps / n; math.Abs(p-0.5) > within(0.5) {
		t.Errorf("the median %g is at %g", a.Spread[1], p)
	}
	if math.Abs(a.Gap-0.01) > 1e-12 || !a.GoesIn() || a.Bears[0].On != mating.OnShaft {
		t.Errorf("gap %g, bears %v", a.Gap, a.Bears)
	}
}

// TestCorrelatedSizes: the zero of a gauge drops out of a difference of two of
// its readings, so that the spread is that of the readings alone.
func TestCorrelatedSizes(t *testing.T) {
	data := strings.Replace(string(job(`  far: {kind: length}
  near: {kind: length}
`, `    w: {kind: width, is: 8, within: 1e-6 mm}
`, `    k: {pair: key-in-keyway, of: {width: part.w, height: 7 mm, shaft-width: far - near, shaft-depth: 4 mm, hub-width: 9 mm, hub-depth: 4 mm}}
`)), "sizes:\n  far", `kit:
  g: {kind: caliper, resolution: 0.0001, zero: 1 mm, repeat: 0.01 mm}
readings:
  - {id: a, by: outside, of: {size: far}, with: g, saw: 28.1}
  - {id: b, by: outside, of: {size: near}, with: g, saw: 20.0}
sizes:
  far`, 1)
	a := one(t, []byte(data))
	half := 1.6449 * 0.01 * math.Sqrt2 / 2 // of the gap, half the difference
	for i, want := range []float64{0.05 - half, 0.05, 0.05 + half} {
		if math.Abs(a.Spread[i]-want) > 0.0008 {
			t.Errorf("spread %v, want %g", a.Spread, want)
		}
	}
}

// TestJobs: every job with mating shapes gets an answer with finite figures, and
// the same with the same seed.
func TestJobs(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs there")
	}
	pairs := map[trade.PairKind]bool{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		list, err := answers(t, file, data, 1)
		if err != nil {
			t.Errorf("%s: %v", file, err)
		}
		again, _ := answers(t, file, data, 1)
		for i, a := range list {
			pairs[a.Pair.ID] = true
			checkAnswer(t, file, &a)
			b := again[i]
			if a.Chance != b.Chance || a.Spread != b.Spread || !reflect.DeepEqual(a.Bears, b.Bears) {
				t.Errorf("%s: another answer with the same seed", file)
			}
		}
	}
	if len(pairs) < len(mating.Pairs()) {
		t.Errorf("only %v are asked for", pairs)
	}
}

func checkAnswer(t *testing.T, file string, a *mating.Answer) {
	t.Helper()
	if !a.Known() || math.IsNaN(a.Gap) || !(a.Spread[0] <= a.Spread[1] && a.Spread[1] <= a.Spread[2]) || !(a.Chance >= 0 && a.Chance <= 1) {
		t.Errorf("%s: %+v", file, a)
	}
	least := math.Inf(1)
	for _, face := range a.Faces {
		least = min(least, face.Least)
	}
	if math.Abs(least-a.Gap) > 1e-9 {
		t.Errorf("%s: the gap is %g, that of the faces %g", file, a.Gap, least)
	}
	checkScene(t, file, a)
}

// checkScene: drawn, the part is as far from its mate as the gap says, and with
// every clearance drawn ten times as wide ten times as far.
func checkScene(t *testing.T, file string, a *mating.Answer) {
	t.Helper()
	for k, tolerance := range map[float64]float64{1: 1e-9, 10: 0.01} {
		s := a.Exaggerated(k)
		if a.Pair.ID == "key-in-keyway" || len(s.Part) == 0 || len(s.Marks) == 0 {
			continue // it stands on the floor
		}
		least := math.Inf(1)
		for i, part := range s.Part {
			for j, mate := range s.Mate {
				p, q := part.Closest(mate)
				if d := p.Distance(q); (a.Pair.ID != "bolts-in-holes" || i == j) && d > 1e-9 {
					least = min(least, d)
				}
			}
		}
		if want := k * a.Gap; a.GoesIn() && a.Pair.ID != "dovetail-with-gib" && math.Abs(least-want) > tolerance*max(1, want) {
			t.Errorf("%s: drawn %g apart, want %g", file, least, want)
		}
	}
}

// TestOpen: a size that the readings leave open leaves the answer open.
func TestOpen(t *testing.T) {
	a := one(t, job("  slot: {kind: width}\n", `    w: {kind: width, goes-in: slot, clearance: 0.01..0.02}
`, `    k: {pair: key-in-keyway, of: {width: part.w, height: 7 mm, shaft-width: slot, shaft-depth: 4 mm, hub-width: 9 mm, hub-depth: 4 mm}}
`))
	if a.Known() || strings.Join(a.Open, " ") != "width shaft-width" || len(a.Scene().Part) > 0 {
		t.Errorf("%+v", a)
	}
}

// TestFaults: what is wrong is said with its place.
func TestFaults(t *testing.T) {
	sizes, part := "  a: {kind: width, known: 8}\n", "    w: {kind: width, is: 8, within: 0.01}\n"
	_, err := answers(t, "constructed.yaml", job(sizes, part,
		"    k: {pair: sector-shoe-in-groove, of: {outer: part.w, inner: a + 1 mm, angle: 30 deg, groove-outer: 9 mm, groove-inner: 7 mm}}\n"), 1)
	var faults trade.Faults
	if !errors.As(err, &faults) || len(faults) != 1 || faults[0].Pos.Line == 0 || !strings.Contains(faults[0].Text, "outer radius must be larger") {
		t.Errorf("%v", err)
	}
}

// TestMadeByHand: pairs that no job file can hold.
func TestMadeByHand(t *testing.T) {
	for want, mate := range map[string]trade.Mate{
		"no pair":       {Pair: "hook-in-eye"},
		"needs the rol": {Pair: "key-in-keyway"},
		"no opening":    {Pair: "key-in-keyway", Entry: &trade.Entry{Kind: "keyhole"}},
		"no plan":       {Pair: "bolts-in-holes", Of: []trade.MateArg{{Role: "plan", Plan: "p"}}},
	} {
		j := &trade.Job{Part: &trade.Part{Mates: []trade.Mate{mate}}}
		r, err := adjust.Adjust(j)
		if err != nil {
			t.Fatal(err)
		}
		if _, err = mating.Check(t.Context(), r, &fit.Result{}, 1); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", want, err)
		}
	}
	r, _ := adjust.Adjust(&trade.Job{})
	if list, err := mating.Check(t.Context(), r, &fit.Result{}, 1); list != nil || err != nil {
		t.Errorf("a job that makes nothing: %v %v", list, err)
	}
}

// TestOnlyTheBoltsOfAPlan: the cover plate's plan has the bearing's bore in it,
// which is no bolt.
func TestOnlyTheBoltsOfAPlan(t *testing.T) {
	file := filepath.Join("..", "..", "examples", "cover-plate.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	list, err := answers(t, file, data, 1)
	if err != nil || len(list) != 1 {
		t.Fatalf("%d answers: %v", len(list), err)
	}
	var faces []string
	for _, face := range list[0].Faces {
		faces = append(faces, face.Name)
	}
	if want := []string{"h1", "h2", "h3", "h4"}; !reflect.DeepEqual(faces, want) {
		t.Errorf("bolts at %v, want %v", faces, want)
	}
}

// TestBearingsAreSure: with clearances of many u the shoe bears in every draw where
// it bears at the sizes found, on either wall; so does a key.
func TestBearingsAreSure(t *testing.T) {
	shoe := one(t, job("  wall: {kind: radius, known: 50, u: 0.001}\n", "    w: {kind: radius, is: 49, within: 0.001}\n",
		"    k: {pair: sector-shoe-in-groove, of: {outer: part.w, inner: 40 mm, angle: 60 deg, groove-outer: wall, groove-inner: 39 mm}}\n"))
	key := one(t, job("  slot: {kind: width, known: 8.03, u: 0.001}\n", "    w: {kind: width, is: 8.01, within: 0.002}\n",
		"    k: {pair: key-in-keyway, of: {width: part.w, height: 7 mm, shaft-width: slot, shaft-depth: 4 mm, hub-width: 8.2 mm, hub-depth: 3.2 mm}}\n"))
	for _, a := range []mating.Answer{shoe, key} {
		for _, b := range a.Bears {
			if b.Chance != 1 {
				t.Errorf("%s: pressed %s it bears %s in %g of the draws", a.Pair.ID, b.Pressed, b.On, b.Chance)
			}
		}
	}
}
