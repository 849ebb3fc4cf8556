package advise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// survey looks over all that might be read.
type survey struct {
	ctx    context.Context // its end ends the survey: no reading is looked at after it
	r      *adjust.Result
	a      *Advice
	shapes []*shape
	usages map[string]*usage
	inUse  map[string][]*trade.Reading // the readings in use, by setUpOf
	lends  bool                        // borrowed pieces are looked at too
	keeps  int                         // how many of the best are worked out in full
}

func newSurvey(ctx context.Context, r *adjust.Result, a *Advice) *survey {
	return &survey{
		ctx: ctx, r: r, a: a, shapes: shapesOf(r.Job), usages: usages(r.Job), inUse: readingsBySetUp(r.Job), lends: true, keeps: mostKept,
	}
}

// planned returns every reading that might be newly taken.
func (s *survey) planned() []*Candidate {
	list := s.withOwn()
	if s.lends {
		list = append(list, s.withLent()...)
	}
	return list
}

// withOwn returns the readings that the kit allows as it is.
func (s *survey) withOwn() []*Candidate {
	var list []*Candidate
	for _, sh := range s.shapes {
		for _, filling := range s.fillings(sh) {
			list = append(list, s.readings(sh, filling, nil)...)
		}
	}
	return list
}

// withLent returns those that need a piece which the kit lacks.
func (s *survey) withLent() []*Candidate {
	var list []*Candidate
	for _, sh := range s.shapes {
		list = append(list, s.borrowed(sh)...)
	}
	return list
}

// borrowed returns the readings of a shape that need one piece the kit lacks,
// the other pieces as they have stood in it.
func (s *survey) borrowed(sh *shape) []*Candidate {
	var list []*Candidate
	for i := range sh.method.Roles {
		if kinds := open(&sh.method.Roles[i]); kinds == nil || gauge.PieceOf(kinds[0]).From == gauge.NoSet {
			continue
		}
		filling, ok := sh.asItStood(i)
		if !ok {
			continue
		}
		for _, p := range s.borrowable(sh, filling, i) {
			with := append(slices.Clone(filling), trade.Arg{Role: sh.method.Roles[i].Name, ID: p.ID})
			list = append(list, s.readings(sh, with, []trade.Piece{p})...)
		}
	}
	return list
}

// asItStood fills the open roles but one with what stood there first.
func (sh *shape) asItStood(but int) (filling []trade.Arg, ok bool) {
	for i := range sh.method.Roles {
		role := &sh.method.Roles[i]
		if i == but || open(role) == nil {
			continue
		}
		if stood := sh.stood[role.Name]; len(stood) > 0 {
			filling = append(filling, stood[0])
		} else if !role.Optional {
			return nil, false
		}
	}
	return filling, true
}

// readings returns a set-up read by every instrument that can.
func (s *survey) readings(sh *shape, filling []trade.Arg, borrow []trade.Piece) []*Candidate {
	var list []*Candidate
	for i := range s.r.Job.Instruments {
		if s.ctx.Err() != nil {
			return nil
		}
		instrument := &s.r.Job.Instruments[i]
		use := s.usages[instrument.ID]
		if !use.reads(instrument, sh.method) {
			continue
		}
		c := &Candidate{
			Reading: trade.Reading{By: sh.method.ID, Of: s.of(sh, filling, use), With: instrument.ID},
			Borrow:  borrow, Effort: NewSetUp, shape: sh.key(),
		}
		if borrow != nil {
			c.Effort = BorrowedPiece
		}
		if sh.feel != nil {
			c.Reading.Feel, c.Reading.SeatedOnce = sh.feel.Feel, sh.feel.SeatedOnce
		}
		if s.worthTaking(c) {
			list = append(list, c)
		}
	}
	return list
}

// of returns what stands in the roles, in the order of the method.
func (s *survey) of(sh *shape, filling []trade.Arg, use *usage) []trade.Arg {
	var list []trade.Arg
	for _, name := range []string{"from", "to"} {
		if arg, ok := sh.of[name]; ok {
			list = append(list, arg)
		}
	}
	for _, role := range sh.method.Roles {
		arg, ok := sh.of[role.Name]
		if at := slices.IndexFunc(filling, func(a trade.Arg) bool { return a.Role == role.Name }); at >= 0 {
			arg, ok = filling[at], true
		}
		if role.OfInstrument && use.flat != nil && s.meetsARound(sh) {
			arg, ok = *use.flat, true
		}
		if ok {
			arg.Role, arg.Pos = role.Name, trade.Pos{}
			list = append(list, arg)
		}
	}
	return list
}

// meetsARound reports whether a diameter stands in a role of a shape.
func (s *survey) meetsARound(sh *shape) bool {
	for _, arg := range sh.of {
		if size := s.r.Job.Size(arg.ID); size != nil && size.Kind == trade.Diameter {
			return true
		}
	}
	return false
}

// worthTaking reports whether a reading has not been taken yet, or meets a
// surface out of form, where it may be taken elsewhere.
func (s *survey) worthTaking(c *Candidate) bool {
	for _, r := range s.inUse[setUpOf(&c.Reading)] {
		if !sameArgs(r.Of, c.Reading.Of) {
			continue
		}
		c.Fresh = slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return outOfForm(s.r.Job.Size(a.ID)) })
		return c.Fresh
	}
	return true
}

func outOfForm(size *trade.Size) bool {
	return size != nil && size.Form.Given() && size.Form.Sign() > 0
}

// setUpOf names a reading by its method, its instrument and what it meets, in
// whatever order and roles that stands.
func setUpOf(r *trade.Reading) string {
	parts := []string{}
	for _, arg := range r.Of {
		parts = append(parts, arg.ID)
	}
	slices.Sort(parts)
	return strings.Join(append(parts, r.By, r.With), " ")
}

func readingsBySetUp(job *trade.Job) map[string][]*trade.Reading {
	list := map[string][]*trade.Reading{}
	for i := range job.Readings {
		if r := &job.Readings[i]; !setAside(r) {
			list[setUpOf(r)] = append(list[setUpOf(r)], r)
		}
	}
	return list
}

// setAside reports whether nothing of a reading is in use.
func setAside(r *trade.Reading) bool {
	return !slices.ContainsFunc(r.Saw, func(seen trade.Seen) bool { return !seen.SetAside })
}

func sameArgs(a, b []trade.Arg) bool {
	if len(a) != len(b) {
		return false
	}
	return !slices.ContainsFunc(a, func(x trade.Arg) bool {
		return !slices.ContainsFunc(b, func(y trade.Arg) bool { return x.Role == y.Role && same(x, y) })
	})
}

// name gives the readings ids that the job does not have.
func (s *survey) name(list []*Candidate) {
	n, used := 0, map[string]bool{"": true}
	for i := range s.r.Job.Readings {
		used[s.r.Job.Readings[i].ID] = true
	}
	for i, c := range list {
		for used[c.Reading.ID] {
			n++
			c.Reading.ID = fmt.Sprintf("next%d", n)
		}
		c.order = i
	}
}

// with returns the job with some readings planned, and what they borrow.
func with(job *trade.Job, list []*Candidate) *trade.Job {
	planned := *job
	planned.Readings = slices.Clone(job.Readings)
	planned.Pieces = slices.Clone(job.Pieces)
	lent := map[string]bool{}
	for _, c := range list {
		planned.Readings = append(planned.Readings, c.Reading)
		for _, p := range c.Borrow {
			if !lent[p.ID] {
				planned.Pieces = append(planned.Pieces, p)
				lent[p.ID] = true
			}
		}
	}
	return &planned
}

// foreseen returns the planned readings that can be, with what each promises.
func (s *survey) foreseen() []*Candidate {
	list := s.possible(s.planned())
	s.promise(list)
	return list
}

// possible returns those of planned readings that can be, with what each would
// show.
func (s *survey) possible(planned []*Candidate) []*Candidate {
	s.name(planned)
	byID := map[string]*Candidate{}
	for _, c := range planned {
		byID[c.Reading.ID] = c
	}
	var list []*Candidate
	for _, p := range s.r.Prospects(with(s.r.Job, planned)) {
		c := byID[p.Reading.ID]
		if c == nil { // planned in the job already: its set-up is among those thought of
			continue
		}
		if p.Broken || !s.canShow(c, p.Shows) {
			continue
		}
		c.prospect, c.Shows, c.Remarks = p, p.Shows, p.Remarks
		list = append(list, c)
	}
	return list
}

// promise fills in what readings promise of the size wanted, to first order.
func (s *survey) promise(list []*Candidate) {
	for _, c := range list {
		c.Then, c.Narrows = s.promised(c), c.prospect.Narrows(s.a.For)
	}
}

// promised returns how well the size would be known with a reading. What would
// check it then is left out where it is checked as well as can be and the reading
// makes it no better known: that changes nothing.
func (s *survey) promised(c *Candidate) State {
	now := s.a.Now
	if u, determined := c.prospect.Uncertainty(s.a.For); determined && now.Determined && u >= now.U*(1-alike) &&
		now.Check == adjust.OthersCheck && len(s.r.Either) == 0 {
		return State{U: u, Determined: true}
	}
	return stateOf(c.prospect, s.a.For)
}

// canShow reports whether a reading is one that a person would take: within
// what the instrument spans, and what is below its face by a method made for that.
func (s *survey) canShow(c *Candidate, shows float64) bool {
	if m, _ := gauge.Find(c.Reading.By); m.OneSided {
		used := slices.ContainsFunc(s.r.Job.Readings, func(r trade.Reading) bool { return r.By == c.Reading.By })
		if shows <= 0 || math.IsNaN(shows) && !used {
			return false
		}
	}
	return math.IsNaN(shows) || s.usages[c.Reading.With].spans(s.r.Job.Instrument(c.Reading.With), shows)
}
