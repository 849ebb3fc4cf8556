package fit

import (
	"context"
	"fmt"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/sound"
)

// The jobs of these tests are constructed.

// mm is a length to a millionth of a micron.
func mm(x float64) unit.Quantity {
	q, err := unit.New(int64(math.Round(x*1e9)), 1e9, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return q
}

func between(low, high float64) unit.Range { return unit.Range{Low: mm(low), High: mm(high)} }

// read has the formulas of a job read. What else is wrong in a job made for a test
// of one fault is not asked here.
func read(job *trade.Job) *trade.Job {
	_ = sound.Check(job)
	return job
}

func formula(text string) trade.Formula { return trade.Formula{Text: text} }

// known returns a size known beforehand with a standard uncertainty.
func known(id string, value, u float64) trade.Size {
	return trade.Size{ID: id, Kind: trade.Diameter, Known: trade.Prior{Value: mm(value), U: mm(u)}}
}

// jobOf returns a job whose sizes are all known, with a part of these sizes.
func jobOf(found []trade.Size, sizes ...trade.NewSize) *trade.Job {
	return &trade.Job{Name: "constructed", Units: unit.Millimetre, Sizes: found, Part: &trade.Part{Sizes: sizes}}
}

// slide is a size that goes in the size bore, with a clearance wanted.
func slide(least, most, holds float64) trade.NewSize {
	return trade.NewSize{
		ID: "slide", Kind: trade.Diameter, From: trade.GoesIn, Of: formula("bore"), Clearance: between(least, most), Holds: mm(holds),
	}
}

func adjusted(t testing.TB, job *trade.Job) *adjust.Result {
	t.Helper()
	r, err := adjust.Adjust(read(job))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func fitted(t testing.TB, job *trade.Job, m *meant.Result) *Result {
	t.Helper()
	f, err := Fit(t.Context(), adjusted(t, job), m)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// closeTo fails unless two figures agree to this.
func closeTo(t testing.TB, what string, got, want, to float64) {
	t.Helper()
	if !(math.Abs(got-want) <= to) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// groove is a shop that makes a shoe for a groove: the two walls are read with
// one caliper, whose zero drops out of their difference. Readings are normal.
type groove struct {
	zero, repeat float64
	values       int // of each wall
	size         trade.NewSize
}

// job returns the job with these values read.
func (g *groove) job(outer, inner []float64) *trade.Job {
	job := &trade.Job{
		Name: "groove", Units: unit.Millimetre,
		Instruments: []trade.Instrument{{ID: "cal", Kind: trade.Caliper, Zero: mm(g.zero), Repeat: mm(g.repeat)}},
		Sizes: []trade.Size{
			{ID: "outer", Kind: trade.Distance}, {ID: "inner", Kind: trade.Distance},
		},
		Part: &trade.Part{Name: "shoe", Sizes: []trade.NewSize{g.size}},
	}
	for _, wall := range []struct {
		id   string
		seen []float64
	}{{"outer", outer}, {"inner", inner}} {
		r := trade.Reading{ID: "r" + wall.id, By: "outside", Of: []trade.Arg{{Role: "size", ID: wall.id}}, With: "cal"}
		for _, x := range wall.seen {
			r.Saw = append(r.Saw, trade.Seen{X: mm(x)})
		}
		job.Readings = append(job.Readings, r)
	}
	return job
}

// deviation is the standard uncertainty of outer - inner by hand: the zero
// drops out, each wall has repeat²/n.
func (g *groove) deviation() float64 { return g.repeat * math.Sqrt(2/float64(g.values)) }

func ExampleFit() {
	job := jobOf([]trade.Size{known("bore", 20, 0.005)}, slide(0.01, 0.05, 0.01))
	r, err := adjust.Adjust(read(job))
	if err != nil {
		panic(err)
	}
	f, err := Fit(context.Background(), r, nil)
	if err != nil {
		panic(err)
	}
	slide := f.Of("slide")
	low, high, _ := slide.Limits(unit.Millimetre)
	fmt.Printf("%.2f to %.2f mm, goes in with %.1f %%\n", low, high, 100*slide.Mating.Assembles)
	// Output: 19.96 to 19.98 mm, goes in with 100.0 %
}
