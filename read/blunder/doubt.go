package blunder

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// culprit is one thing that may be wrong: values of one reading, or something
// stated beforehand.
type culprit struct {
	source adjust.Source // its index that of a relation
	values []int         // of a reading
}

// doubt is what is suspect together, and what may be to blame for it.
type doubt struct {
	suspects []adjust.Source
	rivals   []culprit                 // what is suspect: several cannot be told apart
	culprits []culprit                 // and what may be to blame instead
	others   map[adjust.Source]float64 // what the others give for a suspect
	entries  []*entry
	other    float64 // weight of some other slip
	strength float64 // how many standard deviations off the most of it is
}

// weight returns the weight of all that may explain the doubt.
func (d *doubt) weight() float64 {
	sum := d.other
	for _, e := range d.entries {
		sum += e.weight
	}
	return sum
}

// doubtsOf puts what is suspect in doubts: what cannot be told apart in one,
// values of one reading that share a slip in one, all else in one each.
func doubtsOf(r *adjust.Result) []*doubt {
	var list []*doubt
	var done []adjust.Source
	for _, group := range r.Either {
		if !slices.ContainsFunc(group, func(s adjust.Source) bool { return slices.Contains(done, s) }) {
			list = append(list, &doubt{suspects: group, rivals: alternatives(r, group)})
			done = append(done, group...)
		}
	}
	for _, group := range alone(r) {
		group = slices.DeleteFunc(group, func(s adjust.Source) bool { return slices.Contains(done, s) })
		if len(group) > 0 {
			list = append(list, &doubt{suspects: group, rivals: []culprit{together(group)}})
		}
	}
	for _, d := range list {
		d.culprits, d.others = slices.Clone(d.rivals), map[adjust.Source]float64{}
		d.blameUsers(r)
	}
	return list
}

// together is a group of values of one reading, or one prior, as one culprit.
func together(group []adjust.Source) culprit {
	c := culprit{source: group[0]}
	if c.source.Kind == adjust.FromReading {
		c.source.Index = 0
		for _, s := range group {
			c.values = append(c.values, s.Index)
		}
	}
	return c
}

// alternatives are the culprits of a group that cannot be told apart. Values
// that count as one observation, and those of a reading that is in the group
// beside others, are wrong together.
func alternatives(r *adjust.Result, group []adjust.Source) []culprit {
	beside := slices.ContainsFunc(group, func(s adjust.Source) bool { return s.Kind != group[0].Kind || s.ID != group[0].ID })
	var list []culprit
	for left := group; len(left) > 0; {
		first := left[0]
		same := []adjust.Source{first}
		if first.Kind == adjust.FromReading && (beside || countsOnce(r, first.ID)) {
			same = slices.DeleteFunc(slices.Clone(left), func(s adjust.Source) bool { return s.Kind != first.Kind || s.ID != first.ID })
		}
		list = append(list, together(same))
		left = slices.DeleteFunc(slices.Clone(left), func(s adjust.Source) bool { return slices.Contains(same, s) })
	}
	return list
}

// countsOnce reports whether the values of a reading are one observation.
func countsOnce(r *adjust.Result, reading string) bool {
	return slices.ContainsFunc(r.Observations(), func(o adjust.Observation) bool {
		return o.Source.Kind == adjust.FromReading && o.Source.ID == reading && o.Values > 1
	})
}

// alone lists what is suspect: values of one reading that lie near each other
// in one group, all else by itself.
func alone(r *adjust.Result) [][]adjust.Source {
	var list [][]adjust.Source
	for _, v := range r.Readings {
		if !v.Suspect {
			continue
		}
		source := adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}
		if last := len(list) - 1; last >= 0 && list[last][0].ID == v.ID && near(r, list[last][0], source) {
			list[last] = append(list[last], source)
			continue
		}
		list = append(list, []adjust.Source{source})
	}
	for _, source := range suspectPriors(r) {
		list = append(list, []adjust.Source{source})
	}
	return list
}

// near reports whether two values of a reading differ by no more than it
// scatters, so that one slip stands in both.
func near(r *adjust.Result, a, b adjust.Source) bool {
	reading := r.Job.Reading(a.ID)
	if gauge.Pairs(reading.By) {
		return false
	}
	e, err := gauge.ErrorOf(r.Job.Instrument(reading.With))
	scatter := math.Hypot(e.Repeat, e.Resolution/math.Sqrt(12))
	if reading.Feel.Given() {
		scatter = math.Hypot(scatter, reading.Feel.Inside())
	}
	apart := math.Abs(valueOf(r, a).Saw[0] - valueOf(r, b).Saw[0])
	return err == nil && apart <= testLimit*math.Sqrt2*scatter
}

func valueOf(r *adjust.Result, s adjust.Source) *adjust.Value { return r.Value(s.ID, s.Index) }

// sigmaOf returns the standard deviation of the observation that a value is
// part of, 0 where it is left out.
func sigmaOf(r *adjust.Result, s adjust.Source) float64 {
	for _, o := range r.Observations() {
		if o.Source.Kind == s.Kind && o.Source.ID == s.ID && (o.Values > 1 || o.Source.Index == s.Index) {
			return o.Sigma
		}
	}
	return 0
}

func suspectPriors(r *adjust.Result) []adjust.Source {
	var list []adjust.Source
	for _, z := range r.Instruments {
		if z.Suspect {
			list = append(list, adjust.Source{Kind: adjust.FromInstrument, ID: z.ID})
		}
	}
	for _, p := range r.Pieces {
		if p.Suspect {
			list = append(list, adjust.Source{Kind: adjust.FromPiece, ID: p.ID})
		}
	}
	for _, s := range r.Sizes {
		if s.Known != nil && s.Known.Suspect {
			list = append(list, adjust.Source{Kind: adjust.FromKnown, ID: s.ID})
		}
	}
	for _, t := range r.Relations {
		if t.Suspect {
			list = append(list, adjust.Source{Kind: adjust.FromRelation, Index: t.Index})
		}
	}
	return list
}

// blameUsers adds the readings that may be to blame where the zero of an
// instrument or a gauge piece is suspect: a slip in all the values of one
// reading looks like an error of what it was read with.
func (d *doubt) blameUsers(r *adjust.Result) {
	for _, c := range slices.Clone(d.culprits) {
		for i := range r.Job.Readings {
			reading := &r.Job.Readings[i]
			blamed := culprit{source: adjust.Source{Kind: adjust.FromReading, ID: reading.ID}, values: kept(reading)}
			if !c.usedBy(reading) || len(blamed.values) == 0 || d.blames(blamed) {
				continue
			}
			d.culprits = append(d.culprits, blamed)
		}
	}
}

// usedBy reports whether a reading was taken with an instrument or a piece.
func (c culprit) usedBy(reading *trade.Reading) bool {
	switch c.source.Kind {
	case adjust.FromInstrument:
		return reading.With == c.source.ID && !gauge.Pairs(reading.By)
	case adjust.FromPiece:
		return uses(reading, c.source.ID)
	}
	return false
}

// rivalry is how large a test must be, beside the largest, for its observation
// to be the culprit all the same; mostRivals is how many are heard.
const (
	rivalry    = 0.9
	mostRivals = 6
)

// addRivals adds what is nearly as much contradicted by the others as what is
// suspect: a slip there may explain more than one in the suspect.
func (s *study) addRivals(d *doubt) {
	all := s.refit([]*doubt{d})
	if all == nil {
		return
	}
	tests := testsOf(all)
	slices.SortStableFunc(tests, func(a, b tested) int { return cmp.Compare(b.size, a.size) })
	for _, t := range tests[:min(mostRivals, len(tests))] {
		if t.size < max(testLimit, rivalry*tests[0].size) {
			return
		}
		if rival := s.culpritOf(t.source); !d.blames(rival) {
			d.culprits = append(d.culprits, rival)
		}
	}
}

// culpritOf is what may be wrong where a test is large.
func (s *study) culpritOf(source adjust.Source) culprit {
	if source.Kind != adjust.FromReading {
		return culprit{source: source}
	}
	c := culprit{source: adjust.Source{Kind: adjust.FromReading, ID: source.ID}, values: []int{source.Index}}
	if source.Index == whole || countsOnce(s.r, source.ID) {
		c.values = kept(s.r.Job.Reading(source.ID))
	}
	return c
}

// tested is how large the test of an observation is.
type tested struct {
	source adjust.Source
	size   float64
}

// whole stands for all the values of a reading.
const whole = -1

// testsOf lists the tests of a result, those of whole readings among them.
func testsOf(r *adjust.Result) []tested {
	return slices.Concat(valueTests(r), wholeTests(r), priorTests(r))
}

func newTested(s adjust.Source, t adjust.Test) tested { return tested{s, math.Abs(t.Normalised)} }

func valueTests(r *adjust.Result) []tested {
	var list []tested
	for i := range r.Readings {
		if v := &r.Readings[i]; !v.SetAside {
			list = append(list, newTested(adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}, v.Test))
		}
	}
	return list
}

func wholeTests(r *adjust.Result) []tested {
	var list []tested
	for i := range r.Job.Readings {
		if reading := &r.Job.Readings[i]; len(kept(reading)) > 1 && !gauge.Pairs(reading.By) {
			list = append(list, newTested(adjust.Source{Kind: adjust.FromReading, ID: reading.ID, Index: whole}, r.Whole(reading.ID)))
		}
	}
	return list
}

func priorTests(r *adjust.Result) []tested {
	var list []tested
	for _, z := range r.Instruments {
		list = append(list, newTested(adjust.Source{Kind: adjust.FromInstrument, ID: z.ID}, z.Test))
	}
	for _, p := range r.Pieces {
		list = append(list, newTested(adjust.Source{Kind: adjust.FromPiece, ID: p.ID}, p.Test))
	}
	for i := range r.Sizes {
		if s := &r.Sizes[i]; s.Known != nil {
			list = append(list, newTested(adjust.Source{Kind: adjust.FromKnown, ID: s.ID}, *s.Known))
		}
	}
	for _, t := range r.Relations {
		list = append(list, newTested(adjust.Source{Kind: adjust.FromRelation, Index: t.Index}, t.Test))
	}
	return list
}

func (d *doubt) blames(c culprit) bool {
	return slices.ContainsFunc(d.culprits, func(o culprit) bool {
		return o.source == c.source && slices.Equal(o.values, c.values)
	})
}

// kept returns the values of a reading that are not set aside: the one of a go
// / no-go pair.
func kept(reading *trade.Reading) []int {
	if reading.GoNoGo() {
		return []int{0}
	}
	var list []int
	for i, seen := range reading.Saw {
		if !seen.SetAside {
			list = append(list, i)
		}
	}
	return list
}

// free changes a job so that the culprit says nothing.
func (c culprit) free(job *trade.Job) {
	switch c.source.Kind {
	case adjust.FromReading:
		c.setAside(job)
	case adjust.FromInstrument:
		instrument := job.Instrument(c.source.ID)
		instrument.Zero = quantity(anything, gauge.InstrumentReads(instrument))
	case adjust.FromPiece:
		job.Piece(c.source.ID).Tolerance = quantity(anything, unit.Length)
	case adjust.FromKnown:
		job.Size(c.source.ID).Known = trade.Prior{}
	case adjust.FromRelation:
		relation := &job.Relations[c.source.Index]
		relation.Within = quantity(anything, cmp.Or(relation.Within.Dimension(), relation.U.Dimension()))
		relation.U = unit.Quantity{}
	}
}

func (c culprit) setAside(job *trade.Job) {
	reading := job.Reading(c.source.ID)
	if reading == nil {
		return // left out already
	}
	if reading.GoNoGo() {
		job.Readings = slices.DeleteFunc(job.Readings, func(r trade.Reading) bool { return r.ID == c.source.ID })
		return
	}
	for _, i := range c.values {
		reading.Saw[i].SetAside = true
	}
}
