package meant

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// The model's working figures: our choice, no source.
const (
	usualMake   = 0.03 // mm: how closely a machined surface is made, as a standard deviation
	lightWear   = 0.03 // mm: scale of the half-normal
	heavyWear   = 0.25 // mm
	widestReach = 50.0 // mm: a size found less closely than this is not asked
	farthest    = 1e6  // mm: nor one larger than this
)

// asked is one length as the model sees it.
type asked struct {
	size    *trade.Size
	x, u    float64
	making  float64
	scatter scatter // of making, reading and wear together
	decided bool    // by the user: values holds his alone
	values  []value // that may have been meant
	members []member
}

// job is everything that is asked at once.
type job struct {
	r      *adjust.Result
	asked  []asked
	at     map[string]int // of a size among those asked
	ties   []tie
	blocks []block
	block  []int            // by size asked, its block
	prior  [systems]float64 // of the Dirichlet distribution of the shares
}

// gather collects the sizes that can be asked, and what ties them together.
func gather(r *adjust.Result, tables Tables) *job {
	j := &job{r: r, prior: priorOf(r.Job.Machine), at: map[string]int{}}
	parts, roles := newStandard(tables), rolesOf(r.Job)
	for i := range r.Job.Sizes {
		size := &r.Job.Sizes[i]
		found := r.Size(size.ID)
		if !isLength(size.Kind) || !found.Determined || followsFromThread(r.Job, roles, size) {
			continue
		}
		a := newAsked(size, found, parts.of(size, isMajor(r.Job, roles, size.ID)))
		below, above := a.scatter.reach()
		if below+above > widestReach || math.Abs(a.x) > farthest {
			continue
		}
		a.values = inKind(size.Kind, masses(a.x-below, a.x+above, a.members))
		a.decide(r.Job.Units)
		j.at[size.ID] = len(j.asked)
		j.asked = append(j.asked, a)
	}
	j.ties = j.listTies()
	j.divide()
	return j
}

// isLength reports whether sizes of a kind stand on the grids of lengths.
// Pitches and modules stand on grids of their own.
func isLength(kind trade.SizeKind) bool {
	return kind.Dimension() == unit.Length && kind != trade.Pitch && kind != trade.Module
}

// role is a size in a role of a reading.
type role struct{ name, id string }

// rolesOf returns what stands in which roles of a job's readings.
func rolesOf(job *trade.Job) map[role]bool {
	roles := map[role]bool{}
	for i := range job.Readings {
		for _, arg := range job.Readings[i].Of {
			roles[role{arg.Role, arg.ID}] = true
		}
	}
	return roles
}

// followsFromThread reports whether the drawing gave a thread and not this size:
// an effective or minor diameter, or any size of a thread that the job names,
// which the tables of threads tell from all its sizes at once.
func followsFromThread(job *trade.Job, roles map[role]bool, size *trade.Size) bool {
	return roles[role{"effective", size.ID}] || roles[role{"minor", size.ID}] || ofThread(job, size.ID) && size.Meant == ""
}

// ofThread reports whether a size is one of a thread that the job names.
func ofThread(job *trade.Job, id string) bool {
	return slices.ContainsFunc(job.Threads, func(t trade.Thread) bool {
		return slices.Contains([]string{t.Major, t.Effective, t.Minor, t.Angle}, id)
	})
}

// isMajor reports whether the size is a thread's major diameter.
func isMajor(job *trade.Job, roles map[role]bool, id string) bool {
	return roles[role{"major", id}] || slices.ContainsFunc(job.Threads, func(t trade.Thread) bool { return t.Major == id })
}

// newAsked sets up a size.
func newAsked(size *trade.Size, found *adjust.Size, members []member) asked {
	a := asked{size: size, x: found.Value, u: found.U, making: makeOf(size, usualMake), members: members}
	a.scatter = newScatter(a.u, a.making, wearOf(size), sideOf(size))
	return a
}

// inKind drops the values that a size of this kind cannot have: only an offset
// can be meant to be nothing, or negative.
func inKind(kind trade.SizeKind, list []value) []value {
	if kind == trade.Offset {
		return list
	}
	for len(list) > 0 && list[0].n <= 0 {
		list = list[1:]
	}
	return list
}

func makeOf(size *trade.Size, usual float64) float64 {
	if size.Make.Given() {
		return size.Make.Inside()
	}
	return usual
}

func wearOf(size *trade.Size) float64 {
	switch size.Wear {
	case trade.LightWear:
		return lightWear
	case trade.HeavyWear:
		return heavyWear
	case trade.TypicalWear:
		return size.TypicalWear.Inside()
	}
	return 0
}

func sideOf(size *trade.Size) float64 {
	switch size.Surface {
	case trade.Outside:
		return 1
	case trade.Inside:
		return -1
	}
	return 0
}

// decide takes the user's word for what was meant. What is no length, such as
// a thread's designation, decides nothing here.
func (a *asked) decide(bare unit.Unit) {
	q, err := unit.ParseLength(strings.TrimSpace(a.size.Meant), bare)
	if err != nil || math.Abs(q.Inside()) > farthest {
		return
	}
	a.is(value{n: nearest(q.Inside()), at: q.Inside()}, q.Unit())
}

// is takes a value as what was meant. One that no grid holds speaks for the
// unit it is written in.
func (a *asked) is(v value, written unit.Unit) {
	found := masses(v.at-0.5/nanometres, v.at+0.5/nanometres, a.members)
	switch {
	case len(found) == 1:
		v.mass, v.name = found[0].mass, found[0].name
	case written == unit.Inch:
		v.mass[decimals] = 1
	default:
		v.mass[metric] = 1
	}
	a.decided, a.values = true, []value{v}
}

// term is the likelihood of one size, given what its reading shared with
// others: by system, and the density of each of its values.
type term struct {
	size    int
	weight  [systems]float64
	density []float64
}

// hardly is the density of a finding that contradicts what the user decided.
const hardly = 1e-12

// term works out the likelihood of size i where the error that it shares with
// others is shared and the variance of its own reading is own.
func (j *job) term(i int, shared, own float64) term {
	a := &j.asked[i]
	s := a.scatter
	s.variance = max(own+a.making*a.making, finest*finest)
	t := term{size: i, density: make([]float64, len(a.values))}
	for k, v := range a.values {
		d := v.at - a.x
		t.density[k] = s.density(d + shared)
		if a.decided { // contradicted is not impossible, and sureness no evidence
			t.density[k] = max(t.density[k], hardly) / max(a.scatter.density(d), hardly)
		}
		for system, mass := range v.mass {
			t.weight[system] += mass * t.density[k]
		}
	}
	if !a.decided {
		t.weight[none] = 1
	}
	return t
}

// at returns the likelihood at these shares.
func (t *term) at(shares *[systems]float64) float64 {
	return shares[0]*t.weight[0] + shares[1]*t.weight[1] + shares[2]*t.weight[2] + shares[3]*t.weight[3]
}
