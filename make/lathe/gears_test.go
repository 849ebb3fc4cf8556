package lathe

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

func pitch(t testing.TB, text string) unit.Quantity {
	t.Helper()
	q, err := unit.ParsePitch(text, unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func trains(t testing.TB, lathe *trade.Machinery, wanted GearsWanted) *ChangeGears {
	t.Helper()
	found, err := FindTrains(lathe, wanted)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestPublishedTrain: the source writes driven over driver.
func TestPublishedTrain(t *testing.T) {
	example := certified.Example(t, "m-change-gears-check")
	lathe := &trade.Machinery{Leadscrew: pitch(t, "4 tpi"), Gears: []int{18, 36, 48, 66}, Clearance: 1}
	found := trains(t, lathe, GearsWanted{Pitch: pitch(t, "11 tpi")})
	best := found.Trains[0]
	if best.Error != 0 || !best.Same(Train{Drivers: []int{48, 18}, Driven: []int{36, 66}}) {
		t.Errorf("best is %+v", best)
	}
	example.Figures(t, map[string]float64{"tpi": unit.MillimetresPerInch / best.Lead})
}

// TestTrains: 8 tpi is 3.175 mm; every lead is worked out beside it.
func TestTrains(t *testing.T) {
	shop := []int{20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 127}
	for _, c := range []struct {
		name    string
		lathe   trade.Machinery
		wanted  string
		starts  int
		drivers []int
		driven  []int
		way     trade.Ratio
		lacking int
	}{
		{name: "the 127", lathe: trade.Machinery{Gears: shop}, wanted: "1.25 mm", drivers: []int{50}, driven: []int{127}},             // 3.175·50/127
		{name: "inch on inch", lathe: trade.Machinery{Gears: shop}, wanted: "14 tpi", drivers: []int{20}, driven: []int{35}},          // 8/14 = 20/35
		{name: "two starts", lathe: trade.Machinery{Gears: shop}, wanted: "14 tpi", starts: 2, drivers: []int{40}, driven: []int{35}}, // 16/14
		{name: "left over", lathe: trade.Machinery{Gears: shop[:11]}, wanted: "1.5 mm", lacking: 127},                                 // 1.5/3.175 = 60/127
		{name: "no thirteen", lathe: trade.Machinery{Gears: []int{20, 30, 40, 50}}, wanted: "13 tpi", lacking: 13},                    // 8/13
		{name: "two of one", lathe: trade.Machinery{Gears: []int{40, 40}}, wanted: "8 tpi", drivers: []int{40}, driven: []int{40}},    // 1/1
		{name: "one of one", lathe: trade.Machinery{Gears: []int{40, 60}}, wanted: "12 tpi", drivers: []int{40}, driven: []int{60}},   // 2/3
		{name: "fixed ratio", lathe: trade.Machinery{Gears: []int{40, 60}, FixedRatio: trade.Ratio{Num: 1, Den: 2}}, wanted: "24 tpi", drivers: []int{40}, driven: []int{60}},
		{
			name: "gearbox", lathe: trade.Machinery{Gears: []int{40, 60}, Gearbox: []trade.Ratio{{Num: 1, Den: 1}, {Num: 1, Den: 2}}}, wanted: "24 tpi",
			drivers: []int{40}, driven: []int{60}, way: trade.Ratio{Num: 1, Den: 2},
		},
	} {
		c.lathe.Leadscrew = pitch(t, "8 tpi")
		found := trains(t, &c.lathe, GearsWanted{Pitch: pitch(t, c.wanted), Starts: c.starts})
		best := found.Trains[0]
		if found.Lacking != c.lacking || (best.Error == 0) != (c.lacking == 0) {
			t.Errorf("%s: lacking %d, best %+v", c.name, found.Lacking, best)
		}
		if c.lacking == 0 && !(slices.Equal(best.Drivers, c.drivers) && slices.Equal(best.Driven, c.driven) && best.Gearbox == c.way) {
			t.Errorf("%s: %+v", c.name, best)
		}
	}
}

// TestWithoutThe127: where all exact trains translate by 127 there are
// substitutes. The one of 7/160 is worked out by bc 1.07:
// 3.175·(20·35)/(40·37)/1.5 - 1 = 0.001126126.
func TestWithoutThe127(t *testing.T) {
	lathe := &trade.Machinery{Leadscrew: pitch(t, "8 tpi"), Gears: []int{20, 35, 37, 40, 60, 127}, Clearance: 1}
	found := trains(t, lathe, GearsWanted{Pitch: pitch(t, "1.5 mm")})
	if best := found.Trains[0]; best.Error != 0 || best.Driven[0] != 127 {
		t.Errorf("best is %+v", best)
	}
	if len(found.Substitutes) == 0 {
		t.Fatal("no substitutes")
	}
	best := found.Substitutes[0]
	if !best.Same(Train{Drivers: []int{20, 35}, Driven: []int{40, 37}}) || math.Abs(best.Error/0.001126126-1) > 1e-6 {
		t.Errorf("substitute is %+v", best)
	}
	// 0.001126126·40 mm
	if over := best.Over(40); math.Abs(over/0.04504504-1) > 1e-6 {
		t.Errorf("%g mm out in 40 mm", over)
	}
	lathe.Gears = append(lathe.Gears, 127)
	exact := trains(t, lathe, GearsWanted{Pitch: pitch(t, "14 tpi"), Without: []int{127}})
	for _, train := range exact.Trains {
		if slices.Contains(train.Drivers, 127) || slices.Contains(train.Driven, 127) {
			t.Errorf("%+v uses what is left out", train)
		}
	}
}

// byHand finds every train by four plain loops over the gears as they lie on
// the bench.
func byHand(lathe *trade.Machinery, lead *big.Rat, within float64) map[string]float64 {
	list := map[string]float64{}
	ways := lathe.Gearbox
	if len(ways) == 0 {
		ways = []trade.Ratio{{}}
	}
	add := func(way trade.Ratio, drivers, driven []int) {
		cut := lathe.Leadscrew.Exact()
		if way.Given() {
			cut.Mul(cut, big.NewRat(int64(way.Num), int64(way.Den)))
		}
		for i := range drivers {
			cut.Mul(cut, big.NewRat(int64(drivers[i]), int64(driven[i])))
		}
		off, _ := cut.Sub(cut.Quo(cut, lead), big.NewRat(1, 1)).Float64()
		if math.Abs(off) <= within {
			list[fmt.Sprint(way, drivers, driven)] = off
		}
	}
	g := lathe.Gears
	for _, way := range ways {
		for a := range g {
			for b := range g {
				if a == b {
					continue
				}
				add(way, []int{g[a]}, []int{g[b]})
				for c := range g {
					for d := range g {
						apart := c != a && c != b && d != a && d != b && d != c
						if apart && g[a]+g[b] > g[c]+DefaultClearance && g[c]+g[d] > g[b]+DefaultClearance {
							add(way, []int{g[a], g[c]}, []int{g[b], g[d]})
						}
					}
				}
			}
		}
	}
	return list
}

// TestAgainstBruteForce: the same trains with the same errors, none twice, in
// order, for any lathe.
func TestAgainstBruteForce(t *testing.T) {
	pitches := []string{"1 mm", "1.25 mm", "14 tpi", "8 tpi", "0.1 mm", "19 tpi", "11.5 tpi", "1/7 in"}
	rapid.Check(t, func(rt *rapid.T) {
		lathe := &trade.Machinery{
			Leadscrew: pitch(t, rapid.SampledFrom([]string{"8 tpi", "3 mm", "4 tpi"}).Draw(rt, "leadscrew")),
			Gears:     rapid.SliceOfN(rapid.IntRange(18, 40), 2, 8).Draw(rt, "gears"),
			Gearbox:   rapid.SampledFrom([][]trade.Ratio{nil, {{Num: 1, Den: 1}}, {{Num: 1, Den: 2}, {Num: 3, Den: 2}}}).Draw(rt, "gearbox"),
		}
		wanted := GearsWanted{
			Pitch:  pitch(t, rapid.SampledFrom(pitches).Draw(rt, "pitch")),
			Starts: rapid.IntRange(1, 3).Draw(rt, "starts"),
			Within: rapid.SampledFrom([]float64{0.3, 2, 100}).Draw(rt, "within"),
		}
		lead := new(big.Rat).Mul(wanted.Pitch.Exact(), big.NewRat(int64(wanted.Starts), 1))
		want := byHand(lathe, lead, wanted.Within)
		found, err := FindTrains(lathe, wanted)
		if err != nil || found.Nearby {
			if len(want) > 0 {
				rt.Fatalf("%d trains are within what was wanted, and none is found: %v", len(want), err)
			}
			return
		}
		if len(found.Trains) != len(want) {
			rt.Fatalf("%d trains, by hand %d", len(found.Trains), len(want))
		}
		last := 0.0
		for _, train := range found.Trains {
			key := fmt.Sprint(train.Gearbox, train.Drivers, train.Driven)
			off, there := want[key]
			if !there || math.Abs(off-train.Error) > 1e-14*math.Abs(off) || math.Abs(train.Error) < last {
				rt.Fatalf("%s is %g off, by hand %g (%v)", key, train.Error, off, there)
			}
			last = math.Abs(train.Error)
			delete(want, key)
		}
	})
}

// TestNearest: where nothing is within the error, trains farther off are still
// told, best first. 3.175·40/20 is 6.35 mm: 0.35/6 too much.
func TestNearest(t *testing.T) {
	lathe := &trade.Machinery{Leadscrew: pitch(t, "8 tpi"), Gears: []int{20, 40}}
	found := trains(t, lathe, GearsWanted{Pitch: pitch(t, "6 mm")})
	best := found.Trains[0]
	if !found.Nearby || best.Drivers[0] != 40 || !agrees(best.Error, 0.35/6, 12) || !agrees(best.Lead, 6.35, 14) {
		t.Errorf("%+v", found)
	}
}

func TestWrongLathes(t *testing.T) {
	good := trade.Machinery{Leadscrew: pitch(t, "8 tpi"), Gears: []int{20, 40}}
	for want, change := range map[string]func(*trade.Machinery, *GearsWanted){
		"the leadscrew is wanted":       func(m *trade.Machinery, _ *GearsWanted) { m.Leadscrew = unit.Quantity{} },
		"from 2 to 100 change gears":    func(m *trade.Machinery, _ *GearsWanted) { m.Gears = m.Gears[:1] },
		"a gear of 0 teeth":             func(m *trade.Machinery, _ *GearsWanted) { m.Gears = []int{0, 40} },
		"a gear of 2000 teeth":          func(m *trade.Machinery, _ *GearsWanted) { m.Gears = []int{2000, 40} },
		"a ratio of 0/1":                func(m *trade.Machinery, _ *GearsWanted) { m.Gearbox = []trade.Ratio{{Num: 0, Den: 1}} },
		"pitch must be greater than 0":  func(_ *trade.Machinery, w *GearsWanted) { w.Pitch = pitch(t, "-1 mm") },
		"from 1 to 1000 starts":         func(_ *trade.Machinery, w *GearsWanted) { w.Starts = -1 },
		"these gears make no train":     func(_ *trade.Machinery, w *GearsWanted) { w.Without = []int{20} },
		"within half of a lead of 100":  func(_ *trade.Machinery, w *GearsWanted) { w.Pitch = pitch(t, "100 mm") },
		"a gearbox of 101 ratios: at m": func(m *trade.Machinery, _ *GearsWanted) { m.Gearbox = make([]trade.Ratio, 101) },
	} {
		lathe, wanted := good, GearsWanted{Pitch: pitch(t, "1 mm")}
		change(&lathe, &wanted)
		if _, err := FindTrains(&lathe, wanted); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// BenchmarkTrains: all trains of 24 gears, ranked. The aim is under a second.
func BenchmarkTrains(b *testing.B) {
	lathe := &trade.Machinery{Leadscrew: pitch(b, "8 tpi")}
	for teeth := 20; len(lathe.Gears) < 23; teeth += 4 {
		lathe.Gears = append(lathe.Gears, teeth)
	}
	lathe.Gears = append(lathe.Gears, 127)
	for b.Loop() {
		found := trains(b, lathe, GearsWanted{Pitch: pitch(b, "1.25 mm"), Within: 1e6})
		b.ReportMetric(float64(len(found.Trains)), "trains")
	}
}

// TestFindTrainsUntil tells how far a search is, finds what the other way finds,
// and ends when it is stopped.
func TestFindTrainsUntil(t *testing.T) {
	lathe := &trade.Machinery{Leadscrew: pitch(t, "8 tpi"), Gears: []int{20, 30, 35, 40, 127}, Gearbox: []trade.Ratio{{Num: 1, Den: 2}, {Num: 1, Den: 1}, {Num: 2, Den: 1}}}
	wanted := GearsWanted{Pitch: pitch(t, "14 tpi")}
	var told [][2]int
	found, err := FindTrainsUntil(t.Context(), lathe, wanted, func(tried, all int) { told = append(told, [2]int{tried, all}) })
	if err != nil {
		t.Fatal(err)
	}
	if want := [][2]int{{0, 3}, {1, 3}, {2, 3}}; !slices.Equal(told[:3], want) {
		t.Errorf("told %v, want %v", told, want)
	}
	if plain, err := FindTrains(lathe, wanted); err != nil || len(plain.Trains) != len(found.Trains) || !plain.Trains[0].Same(found.Trains[0]) {
		t.Errorf("it finds otherwise when somebody waits: %v", err)
	}
	ctx, stop := context.WithCancel(t.Context())
	if found, err := FindTrainsUntil(ctx, lathe, wanted, func(int, int) { stop() }); found != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it gives %v and says %v", found, err)
	}
}
