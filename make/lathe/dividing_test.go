package lathe

import (
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

// threePlates are the usual circles of a dividing head of 40 turns, and gears its
// usual ones (common practice, no source).
var (
	threePlates = []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}
	headGears   = []int{24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100}
)

func angle(t testing.TB, text string) unit.Quantity {
	t.Helper()
	q, err := unit.ParseAngle(text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func divide(t testing.TB, table trade.RotaryTable, wanted DividingWanted) *Dividing {
	t.Helper()
	if table.Ratio == 0 {
		table.Ratio = 40
	}
	d, err := Divide(&table, wanted)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// on returns the plain way on one circle.
func on(t testing.TB, circle int, wanted DividingWanted) Indexing {
	t.Helper()
	return divide(t, trade.RotaryTable{Plates: []int{circle}}, wanted).Plain[0]
}

const arcMinute = math.Pi / 180 / 60

// TestPublishedIndexing: the examples of the subcourse.
func TestPublishedIndexing(t *testing.T) {
	example := certified.Example(t, "m-indexing-simple")
	six := DividingWanted{Count: 6}
	turns := nearest(divide(t, trade.RotaryTable{Plates: []int{18}}, six).Turns)
	nineDegrees := divide(t, trade.RotaryTable{Plates: []int{18}}, DividingWanted{Angle: angle(t, "9 deg")})
	example.Figures(t, map[string]float64{
		"turns for 6":                       turns,
		"holes on 18 for 6 (fraction part)": float64(on(t, 18, six).Holes),
		"holes on 39 for 6 (fraction part)": float64(on(t, 39, six).Holes),
		"holes on 42 for 42 divisions":      float64(on(t, 42, DividingWanted{Count: 42}).Holes),
		"minutes per turn":                  9 * 60 / nearest(nineDegrees.Turns),
		"holes on 20 for 54 min":            float64(on(t, 20, DividingWanted{Angle: angle(t, "0d 54m")}).Holes),
	})
	for _, circle := range []int{18, 39} {
		if i := on(t, circle, six); i.Turns != 6 || i.Error != 0 || i.Counted != 0 {
			t.Errorf("%+v", i)
		}
	}
}

// TestPublishedAngle: 24 minutes on a circle that does not give them.
func TestPublishedAngle(t *testing.T) {
	example := certified.Example(t, "m-indexing-angle-approx")
	d := divide(t, trade.RotaryTable{Plates: []int{15, 16, 17, 18, 19, 20, 21, 23}}, DividingWanted{Angle: angle(t, "0d 24m")})
	best := d.Plain[0]
	if best.Turns != 0 || best.Holes != 1 || best.Circle != 23 || len(d.Warnings) == 0 {
		t.Errorf("best %+v, %q", best, d.Warnings)
	}
	example.Figures(t, map[string]float64{
		"ideal circle":            1 / nearest(d.Turns),
		"angle with 1 hole on 23": 24 + best.Error/arcMinute,
	})
}

// TestDifferential: both examples, with the gears that their remark names.
func TestDifferential(t *testing.T) {
	example := certified.Example(t, "m-c-differential")
	figures := map[string]float64{}
	for _, c := range []struct {
		name           string
		count, instead int
		driver, driven int
	}{{"127", 127, 120, 56, 24}, {"57", 57, 60, 64, 32}} {
		list := divide(t, trade.RotaryTable{Plates: threePlates, Gears: headGears}, DividingWanted{Count: c.count}).Differential
		i := slices.IndexFunc(list, func(d DifferentialIndexing) bool { return d.For == c.instead })
		if i < 0 {
			t.Fatalf("%s: no %d in %+v", c.name, c.instead, list)
		}
		d := list[i]
		figures[c.name+": crank turn"] = float64(d.Plain.Turns) + float64(d.Plain.Holes)/float64(d.Plain.Circle)
		figures[c.name+": ratio"] = float64(d.Ratio.Num) / float64(d.Ratio.Den)
		if len(d.Drivers) != 1 || d.Drivers[0]*c.driven != d.Driven[0]*c.driver {
			t.Errorf("%s: %v over %v", c.name, d.Drivers, d.Driven)
		}
	}
	example.Figures(t, figures)
}

// TestIndexing: the figures of the command line's contract, and cases by hand.
func TestIndexing(t *testing.T) {
	for _, c := range []struct {
		wanted DividingWanted
		want   Indexing
	}{
		{DividingWanted{Count: 37}, Indexing{Turns: 1, Holes: 3, Circle: 37}},                   // 40/37
		{DividingWanted{Count: 42}, Indexing{Turns: 0, Holes: 20, Circle: 21}},                  // 20/21
		{DividingWanted{Count: 10}, Indexing{Turns: 4, Holes: 0, Circle: 49}},                   // 4
		{DividingWanted{Angle: angle(t, "17.5deg")}, Indexing{Turns: 1, Holes: 17, Circle: 18}}, // 17.5/9
		{DividingWanted{Count: 2}, Indexing{Turns: 20, Holes: 0, Circle: 49}},
	} {
		d := divide(t, trade.RotaryTable{Plates: threePlates, Gears: headGears}, c.wanted)
		if d.Plain[0] != c.want || len(d.Compound)+len(d.Differential) > 0 {
			t.Errorf("%+v: %+v", c.wanted, d)
		}
	}
	// A dial of 100 divisions: 90/7 turns are 12 and 85.714 divisions.
	d := divide(t, trade.RotaryTable{Ratio: 90, Divisions: 100}, DividingWanted{Count: 7})
	if len(d.Plain) != 0 || d.Dial.Turns != 12 || math.Abs(d.Dial.Divisions-600.0/7) > 1e-9 {
		t.Errorf("%+v", d.Dial)
	}
}

// TestEveryNumber: all numbers to 400, against holes counted one by one. A circle
// is exact where ratio·circle is a multiple of the number.
func TestEveryNumber(t *testing.T) {
	for n := 2; n <= 400; n++ {
		d := divide(t, trade.RotaryTable{Plates: threePlates}, DividingWanted{Count: n})
		best := math.Inf(1)
		exact := 0
		for _, circle := range threePlates {
			if 40*circle%n == 0 {
				exact++
			}
			for holes := 1; holes <= 20*circle; holes++ {
				best = min(best, math.Abs(float64(holes)/float64(circle)-40/float64(n)))
			}
		}
		if exact > 0 != (d.Plain[0].Error == 0) || exact > 0 && len(d.Plain) != exact {
			t.Errorf("%d: %d exact circles, %+v", n, exact, d.Plain)
		}
		if exact == 0 && math.Abs(math.Abs(d.Plain[0].Error)/(2*math.Pi)*40-best) > 1e-12 {
			t.Errorf("%d: %g, want %g", n, d.Plain[0].Error, best)
		}
		for _, c := range d.Compound {
			checkCompound(t, d, c)
		}
	}
}

// checkCompound: both moves together are one step, but for the error told.
func checkCompound(t *testing.T, d *Dividing, c CompoundIndexing) {
	t.Helper()
	moved := new(big.Rat).Add(big.NewRat(int64(c.First.Holes), int64(c.First.Circle)), big.NewRat(int64(c.Second.Holes), int64(c.Second.Circle)))
	off := nearest(moved.Sub(moved, d.Turns)) * 2 * math.Pi / float64(d.Table.Ratio)
	if off != c.Error || math.Abs(off) >= math.Abs(d.Plain[0].Error) || c.First.Circle == c.Second.Circle {
		t.Errorf("%v: %+v is %g out", d.Turns, c, off)
	}
	if c.Second.Holes == 0 || max(c.Second.Holes, -c.Second.Holes) >= c.Second.Circle {
		t.Errorf("%+v", c)
	}
}

// TestCompound: 69 is a number that handbooks divide by 21 holes on 23 less 11 on
// 33 (from memory), which is the same as 22 on 33 less 2 on 23.
func TestCompound(t *testing.T) {
	d := divide(t, trade.RotaryTable{Plates: []int{21, 23, 27, 29, 31, 33}}, DividingWanted{Count: 69})
	want := CompoundIndexing{First: HolesOn{-2, 23}, Second: HolesOn{22, 33}}
	if !slices.Contains(d.Compound, want) || d.Compound[0].Error != 0 {
		t.Errorf("%+v", d.Compound)
	}
}

// TestCompoundByHand: every pair of moves on two small circles.
func TestCompoundByHand(t *testing.T) {
	for n := 7; n < 120; n++ {
		d := divide(t, trade.RotaryTable{Plates: []int{7, 11}}, DividingWanted{Count: n})
		if d.Plain[0].Error == 0 {
			continue
		}
		best := math.Inf(1)
		for a := -100; a <= 100; a++ {
			for b := -10; b <= 10; b++ {
				if b != 0 {
					best = min(best, math.Abs(float64(a)/7+float64(b)/11-40/float64(n)))
				}
			}
		}
		plain := math.Abs(d.Plain[0].Error) / (2 * math.Pi) * 40
		if found := len(d.Compound) > 0; found != (best < plain-1e-12) || found && math.Abs(math.Abs(d.Compound[0].Error)/(2*math.Pi)*40-best) > 1e-12 {
			t.Errorf("%d: %+v, want %g under %g", n, d.Compound, best, plain)
		}
	}
}

// TestGearsTurnThePlate: in one turn of the table the handle, by its own steps and
// the plate's turning, makes as many turns as the worm asks.
func TestGearsTurnThePlate(t *testing.T) {
	found := 0
	for n := 50; n < 250; n++ {
		for _, d := range divide(t, trade.RotaryTable{Plates: threePlates, Gears: headGears}, DividingWanted{Count: n}).Differential {
			found++
			step := big.NewRat(int64(d.Plain.Turns*d.Plain.Circle+d.Plain.Holes), int64(d.Plain.Circle))
			gears := big.NewRat(1, 1)
			for i := range d.Drivers {
				gears.Mul(gears, big.NewRat(int64(d.Drivers[i]), int64(d.Driven[i])))
			}
			if d.Ratio.Num < 0 {
				gears.Neg(gears)
			}
			told := big.NewRat(int64(d.Ratio.Num), int64(d.Ratio.Den))
			whole := new(big.Rat).Mul(step, big.NewRat(int64(n), 1))
			if gears.Cmp(told) != 0 || whole.Add(whole, gears).Cmp(big.NewRat(40, 1)) != 0 {
				t.Errorf("%d: %+v", n, d)
			}
			stock := slices.Clone(headGears)
			for _, teeth := range slices.Concat(d.Drivers, d.Driven) {
				i := slices.Index(stock, teeth)
				if i < 0 {
					t.Fatalf("%d: there is no other gear of %d in %+v", n, teeth, d)
				}
				stock = slices.Delete(stock, i, i+1)
			}
		}
	}
	if found < 100 {
		t.Errorf("only %d ways", found)
	}
}

// TestCountedFromTheFirst: each division to its nearest hole, one by one.
func TestCountedFromTheFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, circle := rapid.IntRange(2, 300).Draw(t, "divisions"), rapid.IntRange(10, 60).Draw(t, "circle")
		ratio := rapid.IntRange(1, 120).Draw(t, "ratio")
		d, err := Divide(&trade.RotaryTable{Ratio: ratio, Plates: []int{circle}}, DividingWanted{Count: n})
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for k := range n {
			holes := float64(k) * float64(ratio*circle) / float64(n)
			worst = max(worst, math.Abs(holes-math.Round(holes)))
		}
		want := worst / float64(circle*ratio) * 2 * math.Pi
		if got := d.Plain[0].Counted; math.Abs(got-want) > 1e-12 {
			t.Errorf("%g, want %g", got, want)
		}
		if math.Abs(d.Plain[0].Last-float64(n)*d.Plain[0].Error) > 1e-15 {
			t.Errorf("%+v", d.Plain[0])
		}
	})
}

// TestDividingRefused: what cannot be divided, and the words that say so.
func TestDividingRefused(t *testing.T) {
	good := trade.RotaryTable{Ratio: 40, Plates: []int{20}}
	for _, c := range []struct {
		table  trade.RotaryTable
		wanted DividingWanted
		want   string
	}{
		{good, DividingWanted{}, "either a number of divisions"},
		{good, DividingWanted{Count: 3, Angle: angle(t, "1 deg")}, "either a number of divisions"},
		{good, DividingWanted{Count: 1}, "from 2 to 100000"},
		{good, DividingWanted{Count: -4}, "from 2 to 100000"},
		{good, DividingWanted{Angle: angle(t, "360 deg")}, "less than 360°"},
		{good, DividingWanted{Angle: angle(t, "-1 deg")}, "greater than 0"},
		{good, DividingWanted{Angle: angle(t, "1:20")}, "an angle greater than 0"},
		{trade.RotaryTable{Ratio: 40}, DividingWanted{Count: 3}, "nothing to divide by"},
		{trade.RotaryTable{Plates: []int{20}}, DividingWanted{Count: 3}, "turns 0 times"},
		{trade.RotaryTable{Ratio: 40, Plates: []int{0}}, DividingWanted{Count: 3}, "a circle of 0 holes"},
		{trade.RotaryTable{Ratio: 40, Plates: []int{20}, Gears: []int{-1}}, DividingWanted{Count: 3}, "a gear of -1 teeth"},
		{trade.RotaryTable{Ratio: 40, Plates: make([]int, 101)}, DividingWanted{Count: 3}, "at most 100"},
	} {
		if _, err := Divide(&c.table, c.wanted); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

func BenchmarkDivide(b *testing.B) {
	for b.Loop() {
		divide(b, trade.RotaryTable{Plates: threePlates, Gears: headGears}, DividingWanted{Count: 127})
	}
}

// TestCompoundMovesLeast: of all pairs of moves on two circles that come as near, in
// whole numbers, the one is chosen that moves least altogether.
func TestCompoundMovesLeast(t *testing.T) {
	const first, second = 12, 18 // with holes in common: several pairs come as near
	tried := 0
	for n := 5; n < 150; n++ {
		d := divide(t, trade.RotaryTable{Plates: []int{first, second}}, DividingWanted{Count: n})
		c := d.onTwo(first, second)
		miss := func(a, b int) int { // over first·second·n
			m := a*second*n + b*first*n - 40*first*second
			return max(m, -m)
		}
		moves := func(a, b int) int { return max(a, -a)*second + max(b, -b)*first }
		for a := -10 * first; a <= 10*first; a++ {
			for b := 1 - second; b < second; b++ {
				if b == 0 || miss(a, b) > miss(c.First.Holes, c.Second.Holes) {
					continue
				}
				tried++
				if miss(a, b) < miss(c.First.Holes, c.Second.Holes) || moves(a, b) < moves(c.First.Holes, c.Second.Holes) {
					t.Fatalf("%d divisions: %d and %d holes, but %d and %d come as near and move less", n, c.First.Holes, c.Second.Holes, a, b)
				}
			}
		}
	}
	if tried < 500 {
		t.Errorf("only %d pairs come as near", tried)
	}
}
