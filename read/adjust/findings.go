package adjust

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// result puts the solution in the words of the job.
func (m *model) result(t *trial, v *verdict) *Result {
	r := &Result{Job: m.job, Chi2: t.Chi2, Dof: t.Dof, P: t.P()}
	f := newFindings(m, t, v)
	r.found = f
	for i := range m.job.Sizes {
		r.Sizes = append(r.Sizes, f.size(&m.job.Sizes[i]))
	}
	f.kit(r)
	for i := range m.values {
		r.Readings = append(r.Readings, f.value(&m.values[i]))
	}
	f.ties(r)
	f.places(r)
	for _, group := range v.either {
		r.Either = append(r.Either, f.sources(group))
	}
	r.Undetermined = f.undetermined()
	r.Warnings = f.warnings(r)
	return r
}

// findings gathers what the result is made from.
type findings struct {
	*model
	*trial
	*verdict
	position map[int]int       // of an observation in the solution
	priors   map[Source]int    // the observation that a prior is
	used     map[*forward]bool // readings with a value in use
	holds    []int             // by unknown: the readings in use that touch it
	members  map[string][]int  // by reading, its values by place in the solution
	checks   map[string]Check  // by reading
	weak     [][]int           // the values of each reading that no others check, by place in the solution
}

func newFindings(m *model, t *trial, v *verdict) *findings {
	f := &findings{
		model: m, trial: t, verdict: v, position: map[int]int{}, priors: map[Source]int{},
		used: map[*forward]bool{}, holds: make([]int, len(m.unknowns)), members: map[string][]int{},
		checks: map[string]Check{},
	}
	var readings []string // those with a value in use
	for k, i := range t.index {
		f.position[i] = k
		o := m.observations[i]
		if o.source.Kind == FromReading {
			if _, met := f.members[o.source.ID]; !met {
				readings = append(readings, o.source.ID)
			}
			f.members[o.source.ID] = append(f.members[o.source.ID], k)
			f.used[m.values[o.values[0]].reading] = true
		}
	}
	for i, o := range m.observations {
		if o.source.Kind != FromReading {
			f.priors[o.source] = i
		}
	}
	for forward := range f.used {
		for _, column := range forward.columns() {
			f.holds[column]++
		}
	}
	for _, reading := range readings {
		f.checks[reading] = f.checkOf(f.members[reading])
		if f.checks[reading] != OthersCheck {
			f.weak = append(f.weak, f.members[reading])
		}
	}
	return f
}

// columns returns the unknown sizes and pieces that a reading tells something
// about, each once. Roles that only the method's rules use tell nothing.
func (f *forward) columns() []int {
	var list []int
	for i, s := range f.slots {
		if s.column >= 0 && !f.silent(i) && !slices.Contains(list, s.column) {
			list = append(list, s.column)
		}
	}
	return list
}

// silent reports whether a slot stands only in a role that is not in the
// method's equation.
func (f *forward) silent(slot int) bool {
	role := f.soleRole(slot)
	return role >= 0 && role < len(f.method.Roles) && math.IsNaN(f.method.Roles[role].Default)
}

// u returns the standard uncertainty of an unknown.
func (f *findings) u(column int) float64 {
	return math.Sqrt(max(0, f.Cofactor(column, column)))
}

// test returns how observation i stands.
func (f *findings) test(i int) Test {
	k, ok := f.position[i]
	if !ok {
		return Test{SmallestCatchable: math.Inf(1), Suspect: i >= 0 && f.suspect[i]}
	}
	return Test{
		Residual:          0 - f.Misclosures[k],
		Normalised:        0 - f.Normalised(k),
		Redundancy:        f.Redundancy[k],
		SmallestCatchable: f.SmallestCatchable(k, testLevel, testPower),
		Suspect:           f.suspect[i],
	}
}

// prior returns the index of the observation from a source, -1 if there is none.
func (f *findings) prior(source Source) int {
	if i, ok := f.priors[source]; ok {
		return i
	}
	return -1
}

func (f *findings) size(s *trade.Size) Size {
	out := Size{ID: s.ID, Dimension: s.Kind.Dimension(), Check: OthersCheck}
	column, ok := f.sizes[s.ID]
	if !ok {
		out.Value, out.Determined = f.exact[s.ID], true
		return out
	}
	out.Determined = f.Determined(column)
	out.Readings = f.holds[column]
	if out.Determined {
		out.Value, out.U = f.X[column], f.u(column)
		out.Check = f.check(column)
	}
	if i := f.prior(Source{Kind: FromKnown, ID: s.ID}); i >= 0 {
		test := f.test(i)
		out.Known = &test
	}
	if places := f.forms[s.ID]; len(places) > 1 && out.Determined {
		out.Extent = f.extent(column, places)
	}
	return out
}

// check says what would show a wrong reading among those that settle a size:
// the least that stands behind any reading with a share in its variance. Only
// those that others do not check can make it less than that.
func (f *findings) check(column int) Check {
	least := OthersCheck
	enough := leastShare * f.u(column) * f.u(column)
	for _, values := range f.weak {
		share := 0.0
		for _, k := range values {
			influence := f.InfluenceOf(k, column)
			share += influence * influence
		}
		if share > enough {
			least = min(least, f.checks[f.observations[f.index[values[0]]].source.ID])
		}
	}
	return least
}

// checkOf says what would show that a reading with these values is wrong.
func (f *findings) checkOf(values []int) Check { return checkFrom(f.commonRedundancy(values)) }

// commonRedundancy returns the redundancy of an error that all these values
// share, and the least of one value.
func (f *findings) commonRedundancy(values []int) (together, alone float64) {
	alone = 1
	for _, k := range values {
		alone = min(alone, f.Redundancy[k])
	}
	return f.Shared(values, values) / float64(len(values)), alone
}

// checkFrom says what would show a wrong reading with these redundancies. All
// values shifted together are seen where their common redundancy is not zero.
func checkFrom(together, alone float64) Check {
	switch {
	case together > 1e-6:
		return OthersCheck
	case alone > 1e-6:
		return RepeatsCheck
	}
	return NothingChecks
}

// extent returns the tightest and the slackest place of a size out of form.
func (f *findings) extent(column int, places []formAt) *Extent {
	e := &Extent{Least: math.Inf(1), Most: math.Inf(-1)}
	for _, p := range places {
		value := f.X[column] + f.X[p.column]
		u := math.Sqrt(max(0, f.Cofactor(column, column)+2*f.Cofactor(column, p.column)+f.Cofactor(p.column, p.column)))
		if value < e.Least {
			e.Least, e.ULeast, e.LeastBy = value, u, p.reading
		}
		if value > e.Most {
			e.Most, e.UMost, e.MostBy = value, u, p.reading
		}
	}
	return e
}

// kit fills in what instruments and gauge pieces turned out to be.
func (f *findings) kit(r *Result) {
	for _, instrument := range f.job.Instruments {
		zero := Zero{ID: instrument.ID, Dimension: gauge.InstrumentReads(&instrument), Test: f.test(-1)}
		if column, ok := f.zeros[instrument.ID]; ok {
			zero.Value, zero.U = f.X[column], f.u(column)
			zero.Test = f.test(f.prior(Source{Kind: FromInstrument, ID: instrument.ID}))
		}
		r.Instruments = append(r.Instruments, zero)
	}
	for _, p := range f.job.Pieces {
		piece := Piece{ID: p.ID, Value: p.Size.Inside(), Exact: true, Test: f.test(-1)}
		if column, ok := f.pieces[p.ID]; ok {
			piece.Value, piece.U, piece.Exact = f.X[column], f.u(column), false
			piece.Test = f.test(f.prior(Source{Kind: FromPiece, ID: p.ID}))
		} else if p.Tolerance.Given() {
			piece.U, piece.Exact = spread(p.Tolerance, unit.Quantity{}), p.Tolerance.Sign() == 0
		}
		r.Pieces = append(r.Pieces, piece)
	}
}

func (f *findings) ties(r *Result) {
	for i := range f.relations {
		if !f.relations[i].source.Exact() {
			r.Relations = append(r.Relations, Tie{Index: i, Test: f.test(f.prior(Source{Kind: FromRelation, Index: i}))})
		}
	}
}

// value returns how one value of a reading stands.
func (f *findings) value(v *shown) Value {
	out := Value{ID: v.reading.reading.ID, Index: v.index, Dimension: v.reading.dimension, Pair: v.seen.Y.Given()}
	f.fillSeen(&out, v)
	out.Test, out.Others = f.test(v.observation), f.others(v)
	out.SetAside = v.observation < 0
	out.Impossible = slices.Contains(f.impossible, v.observation)
	if out.SetAside || out.Impossible {
		f.fillLeftOut(&out, v)
	}
	return out
}

// others returns what the readings that are not suspect give for a suspect
// value, NaN where there is no such thing.
func (f *findings) others(v *shown) float64 {
	i := v.observation
	if i < 0 || !f.suspect[i] || f.clean == nil || v.reading.pair() ||
		slices.ContainsFunc(f.either, func(group []int) bool { return slices.Contains(group, i) }) {
		return math.NaN()
	}
	var row lsq.Row
	value := v.reading.predict(f.clean.X, &row)
	if !f.clean.Estimable(&row) {
		return math.NaN()
	}
	return value
}

// fillSeen fills in what was seen and what the sizes imply it should have been.
func (f *findings) fillSeen(out *Value, v *shown) {
	if out.Pair {
		out.Saw = [2]float64{v.seen.X.Inside(), v.seen.Y.Inside()}
		out.Predicted = v.reading.nearest(f.X, out.Saw)
		return
	}
	out.Predicted[0] = v.reading.predict(f.X, nil)
	if v.reading.reading.GoNoGo() {
		goes, stops := f.bound(v.reading.reading.Goes), f.bound(v.reading.reading.Stops)
		out.Saw[0] = (goes.at(f.X) + stops.at(f.X)) / 2
		return
	}
	out.Saw[0] = v.seen.X.Inside()
}

// fillLeftOut tests a value that took no part against the sizes that the
// others give: its own scatter and their uncertainty together.
func (f *findings) fillLeftOut(out *Value, v *shown) {
	var row lsq.Row
	out.Residual = 0 - v.reading.misclosure(v.seen).Eval(f.X, &row)
	variance := v.reading.sigma.ofOne() * v.reading.sigma.ofOne()
	for a, i := range row.Columns {
		for b, j := range row.Columns {
			variance += row.Values[a] * row.Values[b] * f.Cofactor(i, j)
		}
	}
	out.Normalised = out.Residual / math.Sqrt(variance)
	if out.Unknown = !f.Estimable(&row) || !finite(out.Residual); !out.Unknown && out.Impossible && !out.Pair {
		out.Others = out.Predicted[0]
	}
}

func (f *findings) places(r *Result) {
	for _, plan := range f.job.Plans {
		for _, hole := range plan.Holes {
			r.Places = append(r.Places, f.place(hole, false))
		}
	}
	for _, place := range f.job.Places {
		r.Places = append(r.Places, f.place(place.ID, place.Kind == trade.Line))
	}
}

func (f *findings) place(id string, line bool) Place {
	p := Place{ID: id, Line: line, Determined: true}
	for axis, column := range f.model.places[id] {
		if column < 0 {
			continue
		}
		p.At[axis], p.U[axis] = f.X[column], f.u(column)
		p.Determined = p.Determined && f.Determined(column)
	}
	return p
}

func (f *findings) sources(group []int) []Source {
	var list []Source
	for _, i := range group {
		o := f.observations[i]
		if len(o.values) == 0 {
			list = append(list, o.source)
		}
		for _, v := range o.values {
			list = append(list, Source{Kind: FromReading, ID: o.source.ID, Index: f.values[v].index})
		}
	}
	return list
}

// sorted returns the parts, largest first.
func sorted(parts map[Source]float64) []Share {
	var list []Share
	for source, part := range parts {
		list = append(list, Share{Source: source, Part: part})
	}
	slices.SortFunc(list, func(a, b Share) int {
		return cmp.Or(cmp.Compare(b.Part, a.Part), cmp.Compare(a.Source.ID, b.Source.ID), cmp.Compare(a.Source.Index, b.Source.Index))
	})
	return list
}
