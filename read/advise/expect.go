package advise

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Expectation is what readings would tell that have not all been taken.
type Expectation struct {
	// Result has the uncertainties and checks to expect. Its values are those that
	// the readings taken and the sizes' guesses imply.
	Result  *adjust.Result
	Planned []string // the readings not taken
	Unknown []string // sizes that neither a reading taken nor a guess tells
	HangsOn []string // those among them on which the worth of a planned reading depends
	Unseen  []string // readings that could be wrong and nothing would show it
}

// Expect returns what to expect of a job in which readings without values are
// planned. The error is of type trade.Faults: relations that contradict each
// other, or a planned reading of which nothing can be foretold.
func Expect(job *trade.Job) (*Expectation, error) {
	known, err := adjust.Adjust(job)
	if err != nil {
		return nil, err
	}
	result, err := adjust.Expect(job)
	if err != nil {
		return nil, err
	}
	e := &Expectation{Result: result}
	for i := range job.Readings {
		r := &job.Readings[i]
		if len(r.Saw) == 0 && !r.GoNoGo() {
			e.Planned = append(e.Planned, r.ID)
		}
		if result.Checked(r.ID) == adjust.NothingChecks && (r.GoNoGo() || !allSetAside(r)) {
			e.Unseen = append(e.Unseen, r.ID)
		}
	}
	for i := range job.Sizes {
		size := &job.Sizes[i]
		if known.Size(size.ID).Determined || size.Guess.Given() {
			continue
		}
		e.Unknown = append(e.Unknown, size.ID)
		if e.hangsOn(job, size.ID) {
			e.HangsOn = append(e.HangsOn, size.ID)
		}
	}
	e.dropIdleWarnings()
	return e, nil
}

// dropIdleWarnings leaves out what a method says of sizes that nothing tells.
func (e *Expectation) dropIdleWarnings() {
	e.Result.Warnings = slices.DeleteFunc(e.Result.Warnings, func(w adjust.Warning) bool {
		r := e.Result.Job.Reading(w.Reading)
		return r != nil && slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return slices.Contains(e.Unknown, a.ID) })
	})
}

func allSetAside(r *trade.Reading) bool { return len(r.Saw) > 0 && setAside(r) }

// hangsOn reports whether what a planned reading is worth depends on how large
// a size is: whether the reading's slopes change with its sizes.
func (e *Expectation) hangsOn(job *trade.Job, id string) bool {
	for i := range job.Readings {
		r := &job.Readings[i]
		if len(r.Saw) > 0 || r.GoNoGo() {
			continue
		}
		if slices.Contains(r.That.Names(), id) {
			return true
		}
		for _, arg := range r.Of {
			if m, _ := gauge.Find(r.By); arg.ID == id && curved(m, valuesOf(m, r.Of, e.Result)) {
				return true
			}
		}
	}
	return false
}

// curved reports whether the slopes of a reading are others where everything
// is a tenth larger.
func curved(m *gauge.Method, values []float64) bool {
	const larger = 1.1
	here, there := make(gauge.Args, len(values)), make(gauge.Args, len(values))
	for i, x := range values {
		here[i], there[i] = grad.Const(x), grad.Const(x)
		if m.Roles[i].Kind != gauge.Count && m.Roles[i].Kind != gauge.Side {
			here[i], there[i] = grad.Var(x, i), grad.Var(x*larger, i)
		}
	}
	a, b := m.Model(here).D, m.Model(there).D
	for i := range values {
		if !(math.Abs(a[i]-b[i]) <= alike*math.Abs(a[i])) {
			return true
		}
	}
	return false
}

// valuesOf returns what stands in the roles of a method, as found.
func valuesOf(m *gauge.Method, of []trade.Arg, r *adjust.Result) []float64 {
	values := make([]float64, len(m.Roles))
	for i, role := range m.Roles {
		values[i] = role.Default
	}
	for _, arg := range of {
		i := m.Role(arg.Role)
		if i < 0 {
			continue
		}
		values[i] = sizeOf(arg, r)
		if size := r.Job.Size(arg.ID); size != nil {
			values[i] *= m.Roles[i].Kind.Factor(size.Kind)
		}
	}
	return values
}

// sizeOf returns the size of what stands in a role, as found.
func sizeOf(arg trade.Arg, r *adjust.Result) float64 {
	if piece := r.Job.Piece(arg.ID); piece != nil {
		return piece.Size.Inside()
	}
	if _, ok := r.Column(arg.ID); ok {
		return r.Named(arg.ID).Value
	}
	if size := r.Size(arg.ID); size != nil {
		return size.Value
	}
	if !arg.Value.Given() {
		return math.NaN()
	}
	return arg.Value.Inside()
}
