package inspect

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Step is one size of the inspection sheet, in the order of making.
type Step struct {
	Made       *fit.Made
	Limits     Limits
	Reading    *trade.Reading // how to read it, without values; nil where the kit allows nothing
	Borrow     []trade.Piece  // gauge pieces that the kit lacks
	Reads      unit.Dimension
	Shows      float64 // what the instrument shows at the target
	ShowsLow   float64 // and at the limits, the lower reading first
	ShowsHigh  float64
	Sure       Limits // all that is read between them is conforming; NaN where nothing is
	U          float64
	Good       Judge
	Lent       *trade.Instrument // the kit has none for it: what to get, its ID says what it is
	Zero       float64           // of the instrument, in what it shows, as far as it was found
	Finer      *Finer            // an instrument that would judge it where this one cannot
	SameAsMate bool              // by the instrument that read the mate: its zero cancels in the clearance
	Before     []string          // stop-points: before what it is to be read
	Remarks    []gauge.Remark
}

// wide is how many times its tolerance a size is thought to be off before it is
// read: so much that a reading's own uncertainty is what is left.
const wide = 10

// plan makes the inspection sheet.
func (p *proof) plan() error {
	if p.Job.Part == nil {
		return nil
	}
	var wanted []*fit.Made
	for _, id := range part.InOrder(p.Job.Part) {
		for _, m := range p.diameters(id) {
			if m.Determined && m.Low < m.High {
				wanted = append(wanted, m)
			}
		}
	}
	if wanted = append(wanted, p.toRead()...); len(wanted) == 0 {
		return nil
	}
	ahead, err := adjust.Adjust(p.ahead(wanted))
	if err != nil {
		return err
	}
	stops, over := p.stopPoints(), advise.LookOver(p.ctx, ahead)
	for _, m := range wanted {
		if err := p.ctx.Err(); err != nil {
			return err
		}
		step := p.step(over, m)
		step.Before = stops[m.Size.ID]
		p.Sheet = append(p.Sheet, step)
	}
	return nil
}

// ahead returns the job with the part as it is to be, its sizes known to no more
// than a multiple of their tolerance, and the readings of the old part as they
// would be taken of the new.
func (p *proof) ahead(wanted []*fit.Made) *trade.Job {
	job := joined(p.made, nil)
	for _, m := range wanted {
		s := asSize(m)
		s.Known = trade.Prior{Value: s.Guess, U: quantity(prior(m), s.Kind.Dimension())}
		job.Sizes = append(job.Sizes, s)
		job.Readings = append(job.Readings, p.hints(m)...)
	}
	job.Instruments = slices.Concat(job.Instruments, []trade.Instrument{unchosen}, gauge.Lendable(job.Units))
	job.Readings = append(job.Readings, p.twins(wanted)...)
	return job
}

func prior(m *fit.Made) float64 { return wide * (m.High - m.Low) / 2 }

// twins returns the readings of old sizes that the part copies as readings of the
// new ones. What they take beside is as it was found.
func (p *proof) twins(wanted []*fit.Made) []trade.Reading {
	copies := map[string]string{}
	for _, m := range wanted {
		if old := strings.TrimSpace(m.Size.Of.Text); m.Size.From == trade.Copies && p.Job.Size(old) != nil {
			copies[old] = ofThePart + m.Size.ID
		}
	}
	var list []trade.Reading
	for _, r := range p.Job.Readings {
		method, _ := gauge.Find(r.By)
		twin := trade.Reading{ID: "new_" + r.ID, By: r.By, With: r.With, Feel: r.Feel, SeatedOnce: r.SeatedOnce, Of: slices.Clone(r.Of), Saw: aside(r.Saw)}
		if method.Model == nil || r.GoNoGo() || slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return a.Role == "from" }) {
			continue
		}
		for i := range twin.Of {
			if id, ok := copies[twin.Of[i].ID]; ok {
				twin.Of[i].ID = id
			}
		}
		if len(sizesIn(&twin)) > 0 && !slices.ContainsFunc(twin.Of, p.ofTheOld) {
			list = append(list, twin)
		}
	}
	return list
}

// ofTheOld reports whether what stands in a role is a length of the old part: a
// pitch or an angle the new one has too.
func (p *proof) ofTheOld(arg trade.Arg) bool {
	size := p.Job.Size(arg.ID)
	return size != nil && size.Kind.Dimension() == unit.Length && size.Kind != trade.Pitch
}

// aside returns values that tell of a set-up and are not used.
func aside(values []trade.Seen) []trade.Seen {
	list := slices.Clone(values)
	for i := range list {
		list[i].SetAside = true
	}
	return list
}

// step says how one size is read.
func (p *proof) step(over *advise.Overview, m *fit.Made) Step {
	s := Step{Made: m, Limits: p.limits(m), U: nan, Sure: Limits{nan, nan}, Shows: nan, ShowsLow: nan, ShowsHigh: nan, Good: Unfit}
	c, advice := p.choose(over, &s)
	if c == nil {
		return s
	}
	s.Reading, s.Borrow, s.Remarks = &c.Reading, c.Borrow, c.Remarks
	s.Lent = p.lends(c)
	method, _ := gauge.Find(c.Reading.By)
	s.Reads = method.Reads
	s.U = withoutPrior(c.Then.U, prior(m))
	s.Good = judgeOf(adjust.Coverage95*s.U, s.Limits)
	if s.Good == Unfit && s.Lent == nil {
		s.Finer = p.finer(over, &s)
	}
	s.SameAsMate = p.readTheMate(m, c.Reading.With)
	s.expect(advice.Result.Job, c, p)
	return s
}

// withoutPrior takes out of an uncertainty what was known before the reading.
func withoutPrior(u, prior float64) float64 {
	return 1 / math.Sqrt(max(0, 1/(u*u)-1/(prior*prior)))
}

// expect works out what the instrument will show.
func (s *Step) expect(job *trade.Job, c *advise.Candidate, p *proof) {
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
	s.Zero = c.Shows - at(s.Made.Target)
	show := func(size float64) float64 { return s.Zero + at(size) }
	s.Shows = show(s.Made.Target)
	s.ShowsLow, s.ShowsHigh = rising(show(s.Limits.Low), show(s.Limits.High))
	if sure, ok := s.Limits.Within(s.U, Proven); ok {
		s.Sure.Low, s.Sure.High = rising(show(sure.Low), show(sure.High))
	}
}

func rising(a, b float64) (low, high float64) { return math.Min(a, b), math.Max(a, b) }

// nan stands for what is not known.
var nan = math.NaN()
