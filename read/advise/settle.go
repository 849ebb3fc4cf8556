package advise

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// catchable is how far apart, in standard deviations, two readings must be that
// the test tells them apart with: those of α = 0.001 and power 0.8.
const catchable = 4.13

// settle fills in what every reading would settle between those that cannot all
// be right: if any of them is the wrong one, what it would show then.
func (s *survey) settle(list []*Candidate) {
	for _, group := range s.r.Either {
		var cases []*adjust.Result
		for _, source := range group {
			if without := s.without(source); without != nil {
				cases = append(cases, without)
			}
		}
		if len(cases) != len(group) || len(group) < 2 {
			continue
		}
		for _, c := range list {
			s.tell(c, group, cases)
		}
	}
	s.readAgain(list)
}

// without returns what the job says if one observation is the wrong one, nil
// where it then says nothing.
func (s *survey) without(source adjust.Source) *adjust.Result {
	job := *s.r.Job
	switch source.Kind {
	case adjust.FromReading:
		job.Readings = slices.Clone(job.Readings)
		r := job.Reading(source.ID)
		r.Saw = slices.Clone(r.Saw)
		if r.GoNoGo() {
			return nil
		}
		r.Saw[source.Index].SetAside = true
	case adjust.FromKnown:
		job.Sizes = slices.Clone(job.Sizes)
		size := job.Size(source.ID)
		size.Guess, size.Known = size.Known.Value, trade.Prior{}
	case adjust.FromPiece:
		job.Pieces = slices.Clone(job.Pieces)
		piece := job.Piece(source.ID)
		piece.Tolerance = piece.Size
	case adjust.FromInstrument:
		job.Instruments = slices.Clone(job.Instruments)
		job.Instrument(source.ID).Zero = wide
	case adjust.FromRelation:
		job.Relations = slices.Delete(slices.Clone(job.Relations), source.Index, source.Index+1)
	}
	result, err := s.r.Refit(&job)
	if err != nil {
		return nil
	}
	return result
}

// wide is an error that nothing keeps small.
var wide = func() unit.Quantity {
	q, err := unit.New(10, 1, unit.Millimetre)
	if err != nil {
		panic("advise: ten millimetres are no quantity")
	}
	return q
}()

// tell fills in what a reading would show in each of the cases, and how far
// apart the two camps are that it best divides them into.
func (s *survey) tell(c *Candidate, group []adjust.Source, cases []*adjust.Result) {
	shows := make([]float64, len(cases))
	for i, r := range cases {
		shows[i] = s.shows(c, r)
	}
	sorted := slices.Sorted(slices.Values(shows))
	apart := 0.0
	for i := range len(sorted) - 1 {
		apart = max(apart, sorted[i+1]-sorted[i])
	}
	sigmas := apart / s.scatter(c)
	if !(sigmas > 1) || c.Settle != nil && c.Settle.Sigmas >= sigmas {
		return
	}
	c.Settle = &Settle{Between: group, Shows: shows, Sigmas: sigmas}
}

// shows returns what a reading would show if the sizes were those of a case.
func (s *survey) shows(c *Candidate, r *adjust.Result) float64 {
	if c.prospect != nil {
		return c.prospect.ShowsAt(r)
	}
	for _, v := range r.Readings {
		if v.ID == c.Reading.ID && !v.Pair {
			return v.Predicted[0]
		}
	}
	return math.NaN()
}

// scatter returns the standard deviation of what a reading will show.
func (s *survey) scatter(c *Candidate) float64 {
	if c.prospect != nil {
		return c.prospect.Spread()
	}
	for _, o := range s.r.Observations() {
		if o.Source.Kind == adjust.FromReading && o.Source.ID == c.Reading.ID {
			return o.Sigma
		}
	}
	return math.Inf(1)
}

// readAgain is for a value that the others outvote: to be read once more before
// anything else.
func (s *survey) readAgain(list []*Candidate) {
	for _, v := range s.r.Readings {
		if !v.Suspect || v.Pair || math.IsNaN(v.Others) {
			continue
		}
		for _, c := range list {
			if c.Again && c.Reading.ID == v.ID && c.Settle == nil {
				c.Settle = &Settle{
					Between: []adjust.Source{{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}},
					Shows:   []float64{v.Others}, Sigmas: math.Abs(v.Saw[0]-v.Others) / s.scatter(c),
				}
			}
		}
	}
}

// settlerFirst brings the reading to the front that best tells apart what
// cannot all be right: of those that the test would do with, the one that
// comes first otherwise, else the one that comes nearest to it.
func (s *survey) settlerFirst(list []*Candidate) {
	best := -1
	for i, c := range list {
		if c.Settle == nil {
			continue
		}
		if best < 0 || min(c.Settle.Sigmas, catchable) > min(list[best].Settle.Sigmas, catchable) {
			best = i
		}
	}
	if best > 0 {
		first := list[best]
		copy(list[1:best+1], list[:best])
		list[0] = first
	}
}
