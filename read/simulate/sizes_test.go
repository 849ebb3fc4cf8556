package simulate

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
)

const jobHead = "oddleg: 1\njob: Trial\n"

// TestGoNoGo draws the rectangle that a go / no-go pair is: ends and standard
// deviation in closed form.
func TestGoNoGo(t *testing.T) {
	r := adjustedText(t, "", []byte(jobHead+`
sizes:
  slot: {kind: width}
readings:
  - {id: a, by: inside, of: {size: slot}, goes: 9.9 mm, stops: 10.1 mm}
`))
	const trials = 200_000
	s := Sizes(r, trials, 1).Sizes[0]
	low, high := s.Interval()
	spread := 4 * math.Sqrt(0.025*0.975/trials) * 0.2 // of a quantile of a rectangle
	for _, c := range []struct {
		what              string
		got, want, within float64
	}{
		{"mean", s.Mean, 10, 4 * 0.2 / math.Sqrt(12*trials)},
		{"u", s.U, 0.2 / math.Sqrt(12), 4 * 0.2 / math.Sqrt(12) / math.Sqrt(2*trials)},
		{"low", low, 10 - 0.95*0.1, spread},
		{"high", high, 10 + 0.95*0.1, spread},
	} {
		if !(math.Abs(c.got-c.want) <= c.within) {
			t.Errorf("%s %.6f, want %.6f ± %.6f", c.what, c.got, c.want, c.within)
		}
	}
	if low, high := s.Moved(); low != 1 || high != -1 {
		t.Errorf("the ends move %d and %d, want both inwards", low, high)
	}
}

// TestStraightJob has nothing bent and nothing rectangular: the simulation
// must say what the adjustment says, exact relations included.
func TestStraightJob(t *testing.T) {
	r := adjustedText(t, "", []byte(jobHead+`
kit:
  mic:  {kind: micrometer, resolution: 0.01 mm, mpe: 0.01 mm}
  jaws: {kind: caliper, resolution: 0.02 mm}
sizes:
  body: {kind: length}
  neck: {kind: length}
  all:  {kind: length}
readings:
  - {id: a, by: outside, of: {size: body}, with: mic, saw: [20.01, 20.02]}
  - {id: b, by: outside, of: {size: neck}, with: mic, saw: 12.50}
  - {id: c, by: outside, of: {size: all}, with: jaws, saw: [32.52, 32.56]}
relations:
  - {that: all, is: body + neck}
`))
	s := Sizes(r, 100_000, 1)
	if s.Failed > 0 || len(s.Sizes) != 3 {
		t.Fatalf("%d trials failed, %d sizes", s.Failed, len(s.Sizes))
	}
	for i := range s.Sizes {
		size := &s.Sizes[i]
		if low, high := size.Moved(); low != 0 || high != 0 {
			t.Errorf("%s: the ends move %d and %d", size.ID, low, high)
		}
		if off := math.Abs(size.Mean-size.Straight.Value) / size.Straight.U; off > 4/math.Sqrt(100_000) {
			t.Errorf("%s: the mean is %.4f standard uncertainties off", size.ID, off)
		}
		if off := math.Abs(size.U/size.Straight.U - 1); off > 4/math.Sqrt(2*100_000) {
			t.Errorf("%s: u is %.4f off", size.ID, off)
		}
	}
}

// nearlySideBySide are two balls that could hardly lie lower: above a reading
// of 40 mm there is no such set-up.
const nearlySideBySide = jobHead + `
kit:
  deep: {kind: depth-micrometer, resolution: 0.01 mm, mpe: 0.03 mm}
sizes:
  bore: {kind: diameter, surface: inside}
readings:
  - {id: a, by: two-balls-stacked, of: {bore: bore, lower: 20 mm, upper: 20 mm}, with: deep, saw: [39.98, 39.96]}
`

// TestNoSolution counts the trials for which there is no set-up. The highest
// reading there can be lies (40 - 39.97)/u(m) = 1.98 standard deviations away,
// u(m) being that of the mean of two and the zero: 2.4 % lie beyond.
func TestNoSolution(t *testing.T) {
	const trials = 20_000
	s := Sizes(adjustedText(t, "", []byte(nearlySideBySide)), trials, 1)
	deviation := math.Sqrt(0.03*0.03/6 + (0.03*0.03/6+0.01*0.01/12)/2)
	beyond := 0.5 * math.Erfc((40-39.97)/deviation/math.Sqrt2)
	spread := 4 * math.Sqrt(beyond/trials)
	if got := float64(s.Failed) / trials; math.Abs(got-beyond) > spread {
		t.Errorf("%.4f of the trials failed, want %.4f ± %.4f", got, beyond, spread)
	}
	if s.Trials != trials || len(s.Sizes[0].sorted) != trials-s.Failed {
		t.Errorf("of %d trials %d failed and %d are kept", s.Trials, s.Failed, len(s.Sizes[0].sorted))
	}
}

// TestSizesOnProcessors draws a job the same with one processor and with two,
// with solving from scratch among it.
func TestSizesOnProcessors(t *testing.T) {
	for name, r := range map[string]string{"first example": "../../testdata/jobs/first-example.yaml", "gears": "../../testdata/jobs/idler-gears.yaml"} {
		result := adjusted(t, r)
		draw := func(processors int) *Simulation {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
			return Sizes(result, 9001, 7)
		}
		one, two := draw(1), draw(2)
		for i := range one.Sizes {
			a, b := &one.Sizes[i], &two.Sizes[i]
			if a.Mean != b.Mean || a.U != b.U || !slices.Equal(a.sorted, b.sorted) {
				t.Errorf("%s: %s is %v with one processor and %v with two", name, a.ID, a.Mean, b.Mean)
			}
		}
	}
}

// TestSizesUntil draws the same as without anybody waiting, tells of every block,
// and ends soon after it is stopped.
func TestSizesUntil(t *testing.T) {
	r := adjusted(t, "../../testdata/jobs/first-example.yaml")
	const trials = 3*blockSize + 1
	var told, most atomic.Int64
	s, err := SizesUntil(t.Context(), r, trials, 7, func(made int) {
		told.Add(1)
		for old := most.Load(); int64(made) > old && !most.CompareAndSwap(old, int64(made)); old = most.Load() {
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if told.Load() != 4 || most.Load() != trials {
		t.Errorf("told %d times, at last of %d trials", told.Load(), most.Load())
	}
	if want := Sizes(r, trials, 7); !slices.Equal(s.Sizes[0].sorted, want.Sizes[0].sorted) {
		t.Error("it draws otherwise when somebody waits")
	}
	ctx, stop := context.WithCancel(t.Context())
	told.Store(0)
	if s, err := SizesUntil(ctx, r, 1000*blockSize, 7, func(int) { told.Add(1); stop() }); s != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it gives %v and says %v", s, err)
	}
	if blocks := told.Load(); blocks > int64(runtime.GOMAXPROCS(0)) {
		t.Errorf("%d blocks were drawn after it was stopped", blocks)
	}
}

// TestNothingToDraw has sizes without readings.
func TestNothingToDraw(t *testing.T) {
	r := adjustedText(t, "", []byte(jobHead+`
sizes:
  a: {kind: length, known: 5 mm}
  b: {kind: length}
  c: {kind: length}
readings: []
relations:
  - {that: b, is: 2*a}
`))
	s := Sizes(r, 1000, 1)
	for i := range s.Sizes {
		if size := &s.Sizes[i]; size.Mean != size.Straight.Value {
			t.Errorf("%s: %v, want %v", size.ID, size.Mean, size.Straight.Value)
		}
	}
	if list := SecondOrder(r); len(list) > 0 {
		t.Errorf("warned of %v", list)
	}
}

// BenchmarkSizes draws 100000 times; seconds for a million is ten times that.
func BenchmarkSizes(b *testing.B) {
	r := adjusted(b, "../../examples/index-plunger.yaml")
	for b.Loop() {
		Sizes(r, 100_000, 1)
	}
}
