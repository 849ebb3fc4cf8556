package inspect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oddleg"
	"oddleg/adjust"
	"oddleg/advise"
	"oddleg/expr"
	"oddleg/fit"
	"oddleg/gauge"
	"oddleg/unit"
)

// Step is one size of the inspection sheet, in the order of making.
type Step struct {
	Made       *fit.Made
	Limits     Limits
	Reading    *oddleg.Reading // how to read it, without values; nil where the kit allows nothing
	Borrow     []oddleg.Piece  // gauge pieces that the kit lacks
	Reads      unit.Dimension
	Shows      float64 // what the instrument shows at the target
	ShowsLow   float64 // and at the limits, the lower reading first
	ShowsHigh  float64
	Sure       Limits // all that is read between them is conforming; NaN where nothing is
	U          float64
	Good       Judge
	SameAsMate bool     // by the instrument that read the mate: its zero cancels in the clearance
	Before     []string // stop-points: before what it is to be read
	Remarks    []gauge.Remark
}

// wide is how many times its tolerance a size is thought to be off before it is
// read: so much that a reading's own uncertainty is what is left.
const wide = 10

// tried is how many of the readings that are good enough are compared by what
// they say of the clearance.
const tried = 4

// better is the part by which a reading must tell the clearance more closely to
// be taken in place of an easier one.
const better = 0.05

// plan makes the inspection sheet.
func (p *proof) plan() error {
	if p.Job.Part == nil {
		return nil
	}
	var wanted []*fit.Made
	for _, id := range inOrder(p.Job.Part) {
		if m := p.made.Of(id); m.Determined && m.Low < m.High {
			wanted = append(wanted, m)
		}
	}
	if len(wanted) == 0 {
		return nil
	}
	ahead, err := adjust.Adjust(p.ahead(wanted))
	if err != nil {
		return err
	}
	stops, over := p.stopPoints(), advise.LookOver(ahead)
	for _, m := range wanted {
		step := p.step(over, m)
		step.Before = stops[m.Size.ID]
		p.Sheet = append(p.Sheet, step)
	}
	return nil
}

// ahead returns the job with the part as it is to be, its sizes known to no more
// than a multiple of their tolerance, and the readings of the old part as they
// would be taken of the new.
func (p *proof) ahead(wanted []*fit.Made) *oddleg.Job {
	job := joined(p.made, nil)
	for _, m := range wanted {
		s := asSize(m)
		s.Known = oddleg.Prior{Value: s.Guess, U: quantity(prior(m), s.Kind.Dimension())}
		job.Sizes = append(job.Sizes, s)
		job.Readings = append(job.Readings, plain(m)...)
	}
	job.Instruments = append(slices.Clone(job.Instruments), oddleg.Instrument{
		ID: whichever, Kind: oddleg.OtherInstrument, MPE: quantity(1, unit.Length), Repeat: quantity(1, unit.Length),
	})
	job.Readings = append(job.Readings, p.twins(wanted)...)
	return job
}

func prior(m *fit.Made) float64 { return wide * (m.High - m.Low) / 2 }

// whichever stands for an instrument that is still to be chosen: no id of a job
// looks like that.
const whichever = "-"

// plain returns the readings of a length that meet it from a face or between two.
func plain(m *fit.Made) []oddleg.Reading {
	if m.Size.Kind != oddleg.Length {
		return nil
	}
	var list []oddleg.Reading
	for _, by := range []string{"outside", "depth"} {
		list = append(list, oddleg.Reading{
			ID: by + "_" + m.Size.ID, By: by, Of: []oddleg.Arg{{Role: "size", ID: ofThePart + m.Size.ID}}, With: whichever, Saw: aside([]oddleg.Seen{{X: asSize(m).Guess}}),
		})
	}
	return list
}

// twins returns the readings of old sizes that the part copies as readings of the
// new ones. What they take beside is as it was found.
func (p *proof) twins(wanted []*fit.Made) []oddleg.Reading {
	copies := map[string]string{}
	for _, m := range wanted {
		if old := strings.TrimSpace(m.Size.Of.Text); m.Size.From == oddleg.Copies && p.Job.Size(old) != nil {
			copies[old] = ofThePart + m.Size.ID
		}
	}
	var list []oddleg.Reading
	for _, r := range p.Job.Readings {
		method, _ := gauge.Find(r.By)
		twin := oddleg.Reading{ID: "new_" + r.ID, By: r.By, With: r.With, Feel: r.Feel, SeatedOnce: r.SeatedOnce, Of: slices.Clone(r.Of), Saw: aside(r.Saw)}
		if method.Model == nil || r.GoNoGo() || slices.ContainsFunc(r.Of, func(a oddleg.Arg) bool { return a.Role == "from" }) {
			continue
		}
		for i := range twin.Of {
			if id, ok := copies[twin.Of[i].ID]; ok {
				twin.Of[i].ID = id
			}
		}
		if len(sizesIn(&twin)) > 0 {
			list = append(list, twin)
		}
	}
	return list
}

// aside returns values that tell of a set-up and are not used.
func aside(values []oddleg.Seen) []oddleg.Seen {
	list := slices.Clone(values)
	for i := range list {
		list[i].SetAside = true
	}
	return list
}

// step says how one size is read.
func (p *proof) step(over *advise.Overview, m *fit.Made) Step {
	s := Step{Made: m, Limits: p.limits(m), U: nan, Sure: Limits{nan, nan}, Shows: nan, ShowsLow: nan, ShowsHigh: nan, Good: Unfit}
	advice := over.Of(ofThePart+m.Size.ID, s.Limits.Width()/3)
	c := p.choose(advice, m)
	if c == nil {
		return s
	}
	s.Reading, s.Borrow, s.Remarks = &c.Reading, c.Borrow, c.Remarks
	method, _ := gauge.Find(c.Reading.By)
	s.Reads = method.Reads
	s.U = withoutPrior(c.Then.U, prior(m))
	s.Good = judgeOf(adjust.Coverage95*s.U, s.Limits)
	s.SameAsMate = p.readTheMate(m, c.Reading.With)
	s.expect(advice.Result.Job, c, p)
	return s
}

// withoutPrior takes out of an uncertainty what was known before the reading.
func withoutPrior(u, prior float64) float64 {
	return 1 / math.Sqrt(max(0, 1/(u*u)-1/(prior*prior)))
}

// expect works out what the instrument will show.
func (s *Step) expect(job *oddleg.Job, c *advise.Candidate, p *proof) {
	lent := *job
	lent.Pieces = append(slices.Clone(job.Pieces), c.Borrow...)
	at := func(size float64) float64 {
		shows, _ := scaled(&lent, &c.Reading, func(id string) float64 {
			switch piece := lent.Piece(id); {
			case id == ofThePart+s.Made.Size.ID:
				return size
			case piece != nil && p.Job.Piece(id) == nil:
				return piece.Size.Inside()
			}
			return p.target(id)
		})
		return shows
	}
	zero := c.Shows - at(s.Made.Target) // of the instrument, as it was found
	show := func(size float64) float64 { return zero + at(size) }
	s.Shows = show(s.Made.Target)
	s.ShowsLow, s.ShowsHigh = rising(show(s.Limits.Low), show(s.Limits.High))
	if sure, ok := s.Limits.Within(s.U, Proven); ok {
		s.Sure.Low, s.Sure.High = rising(show(sure.Low), show(sure.High))
	}
}

func rising(a, b float64) (low, high float64) { return math.Min(a, b), math.Max(a, b) }

// choose takes the reading that is best: with the kit at hand before one that
// borrows, and among those as good as are wanted, or where none is among the best,
// the one that tells the clearance best.
func (p *proof) choose(a *advise.Advice, m *fit.Made) *advise.Candidate {
	var list []*advise.Candidate
	for i := range a.Best {
		if c := &a.Best[i]; !c.Again && c.Reading.With != whichever && c.Then.Determined && !math.IsNaN(c.Shows) {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b *advise.Candidate) int { return len(a.Borrow) - len(b.Borrow) })
	if len(list) == 0 {
		return nil
	}
	best := list[0]
	if m.Mating == nil {
		return best
	}
	enough := a.Reaches(best.Then)
	least := p.clearanceAfter(a, best, m)
	for _, c := range list[1:min(len(list), tried)] {
		if enough && !a.Reaches(c.Then) || len(c.Borrow) > len(best.Borrow) {
			continue
		}
		if u := p.clearanceAfter(a, c, m); u < least*(1-better) {
			best, least = c, u
		}
	}
	return best
}

// clearanceAfter returns the standard uncertainty of the clearance once a reading
// has been taken.
func (p *proof) clearanceAfter(a *advise.Advice, c *advise.Candidate, m *fit.Made) float64 {
	after, ok := a.Taken(c)
	if !ok {
		return math.Inf(1)
	}
	_, u := clearance(after, m)
	return u
}

// clearance returns what a size of the part leaves to its mate, and the standard
// uncertainty of that, correlations counted. Negative is an interference.
func clearance(r *adjust.Result, m *fit.Made) (c, u float64) {
	e, err := expr.ParseRightSide(m.Size.Of.Text, expr.DimensionOf(unit.Length), environment(r.Job))
	if err != nil {
		panic(fmt.Sprintf("inspect: the mate of a size that has been made cannot be read: %v", err))
	}
	mate, size := r.Combine(e, nil), r.Named(ofThePart+m.Size.ID)
	c = mate.Value - size.Value
	if m.Size.From == oddleg.GoesOver {
		c = -c
	}
	return c, math.Sqrt(max(0, r.CovarianceOf(mate, mate)+r.CovarianceOf(size, size)-2*r.CovarianceOf(mate, size)))
}

// readTheMate reports whether an instrument has read what a size goes in or over.
func (p *proof) readTheMate(m *fit.Made, with string) bool {
	if m.Mating == nil || with == "" {
		return false
	}
	e, err := expr.ParseRightSide(m.Size.Of.Text, expr.DimensionOf(unit.Length), environment(p.Job))
	return err == nil && slices.ContainsFunc(p.Job.Readings, func(r oddleg.Reading) bool {
		return r.With == with && slices.ContainsFunc(r.Of, func(a oddleg.Arg) bool { return slices.Contains(e.Names(), a.ID) })
	})
}

// nan stands for what is not known.
var nan = math.NaN()
