package adjust

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/testdata/largejob"
)

const growthSeed = 20261201

// order returns the power of the readings by which a count grows from one
// number of readings to another.
func order(from, to, countFrom, countTo int) float64 {
	return math.Log(float64(countTo)/float64(countFrom)) / math.Log(float64(to)/float64(from))
}

// counting has a model count how often a method of the catalogue is worked out.
func counting(m *model) *int {
	count := new(int)
	for _, f := range m.forwards {
		if f.method.Model == nil {
			continue
		}
		plain, counted := f.method.Model, *f.method
		counted.Model = func(a gauge.Args) grad.Number {
			*count++
			return plain(a)
		}
		f.method = &counted
	}
	return count
}

// TestStartsGrowWithTheReadings: from 300 readings to 3,000, start values take
// ten times as many evaluations and no more than half as many again.
func TestStartsGrowWithTheReadings(t *testing.T) {
	counts := map[int]int{}
	for _, readings := range []int{300, 3000} {
		m := compile(largejob.Make(readings, growthSeed, largejob.Options{Open: 3}).Job())
		count := counting(m)
		m.start(attempt{})
		counts[readings] = *count
	}
	if o := order(300, 3000, counts[300], counts[3000]); !(o < math.Log10(15)) || counts[300] < 300 {
		t.Errorf("evaluations %v: they grow with the power %.2f of the readings", counts, o)
	}
}

// TestCarriedStartsAreNotSought: what another solution found needs no search.
func TestCarriedStartsAreNotSought(t *testing.T) {
	job := largejob.Make(60, growthSeed, largejob.Options{}).Job()
	r, err := Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	m := compile(job)
	count := counting(m)
	x := m.carry(r.found)
	for i, u := range m.unknowns {
		if u.kind != formUnknown && u.kind != feelUnknown && x[i] != r.found.X[i] {
			t.Errorf("%s starts from %g, found was %g", u.id, x[i], r.found.X[i])
		}
	}
	if *count > 0 {
		t.Errorf("%d evaluations to carry over what was found", *count)
	}
}

// TestLargeJobsAreSound: without what is suspect, the sizes of a large job lie
// within five standard uncertainties of what it was made from (constructed), the
// slip is among the suspects, and what nothing settles is open.
func TestLargeJobsAreSound(t *testing.T) {
	made := largejob.Make(150, growthSeed, largejob.Options{Slips: 1, Open: 2})
	r, err := Adjust(made.Job())
	if err != nil {
		t.Fatal(err)
	}
	clean := r.found.clean
	if clean == nil {
		t.Fatal("a slip of half a millimetre is not suspect")
	}
	for id, truth := range made.Truth {
		column := r.found.sizes[id]
		if u := r.found.u(column); !(math.Abs(clean.X[column]-truth) <= 5*u) {
			t.Errorf("%s = %g ± %g, made from %g", id, clean.X[column], u, truth)
		}
	}
	if len(r.Undetermined) != 2 {
		t.Errorf("%d groups of sizes are open, want 2", len(r.Undetermined))
	}
}

// planned returns a job with the set-ups of some readings planned once more.
func planned(job *trade.Job, count int) *trade.Job {
	more := *job
	more.Readings = slices.Clone(job.Readings)
	for i := range count {
		again := job.Readings[i*len(job.Readings)/count]
		again.ID, again.Saw = fmt.Sprint("again", i), nil
		more.Readings = append(more.Readings, again)
	}
	return &more
}

// TestNoReadingIsPassedOver: what stands behind a size with a reading to come is
// the least of all readings that settle it, whichever are looked at.
func TestNoReadingIsPassedOver(t *testing.T) {
	job := largejob.Make(80, growthSeed, largejob.Options{}).Job()
	r, err := Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	passed := 0
	for _, p := range r.Prospects(planned(job, 12)) {
		for _, size := range job.Sizes {
			j, ok := r.found.sizes[size.ID]
			if !ok || !p.closed(j) {
				continue
			}
			enough, gain := leastShare*p.variance(j), p.gain(j)
			looked := p.settling(j, gain, enough)
			passed += len(p.base.members) - len(looked)
			for reading := range p.base.members {
				if p.part(j, gain, reading) > enough && !slices.Contains(looked, reading) {
					t.Errorf("%s has a part in %s with %s and is passed over", reading, size.ID, p.Reading.ID)
				}
			}
		}
	}
	if passed < 10000 {
		t.Errorf("only %d readings are passed over: nothing is gained", passed)
	}
}

// TestIfShownIsTheJobRefitted: the uncertainty with another value is that of the
// job in which the reading has this value.
func TestIfShownIsTheJobRefitted(t *testing.T) {
	job := largejob.Make(40, growthSeed, largejob.Options{}).Job()
	r, err := Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for i := range job.Readings {
		reading := &job.Readings[i]
		if reading.By != "taper-over-rollers" || len(reading.Saw) > 1 {
			continue
		}
		other := *job
		other.Readings = slices.Clone(job.Readings)
		value := reading.Saw[0].X.Inside() + 0.3 // tapers are so much bent that it shows
		other.Readings[i].Saw = []trade.Seen{{X: mustQuantity(t, value)}}
		refitted, err := r.Refit(&other)
		if err != nil {
			t.Fatal(err)
		}
		for _, arg := range reading.Of[:2] {
			u, determined, near := r.IfShown(reading.ID, value, arg.ID)
			want := refitted.Size(arg.ID)
			if !near || determined != want.Determined || !(math.Abs(u-want.U) <= 1e-6*want.U) {
				t.Errorf("%s: u of %s is %g (%v, %v), refitted %g", reading.ID, arg.ID, u, determined, near, want.U)
			}
			if math.Abs(u-r.Size(arg.ID).U) > 1e-4*u {
				compared++
			}
		}
	}
	if compared == 0 {
		t.Error("no uncertainty changes: nothing is compared")
	}
}

func mustQuantity(t *testing.T, mm float64) unit.Quantity {
	t.Helper()
	q, ok := quantityOf(mm, unit.Length)
	if !ok {
		t.Fatalf("%g mm is no length", mm)
	}
	return q
}
