package adjust

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
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
