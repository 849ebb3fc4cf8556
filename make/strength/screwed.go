package strength

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Screw is what was worked out of a screwed joint.
type Screw struct {
	Thread     facts.Thread
	StressArea float64 // of the screw, mm²
	Full       float64 // length of full thread in engagement, mm; 0 where the stud goes into nothing
	ScrewShear float64 // stripping area of the screw's thread over Full, mm²
	NutShear   float64 // stripping area of the nut's
	Enough     float64 // length of thread, chamfers and all, at which the stud is as strong as the threads; NaN where none is
	Tightening Tightening
}

// screwing is a screwed joint while it is worked out.
type screwing struct {
	sheet  series.Sheet // of the stud's thread
	hole   series.Sheet // of the thread it goes into
	stud   metal
	nut    metal
	area   float64
	length float64 // engaged, chamfers and all
	around float64 // part of the circumference, 0 to 1
	lean   engagement
	full   engagement
	twist  float64 // torque per N of pull where tightening stresses it most, mm
	widen  float64 // by what the nut's widening lessens its threads' loads

	threads float64 // full thread in engagement, times the part of the circumference, mm
	ratio   float64 // how many times the strength of the screw's thread the nut's has
}

// lostThread is how much of the engagement holds nothing, in pitches: half a
// thread at each end, where chamfers cut it away (common practice, no source).
const lostThread = 1.0

// screwed works out the stud, the thread it goes into and its head.
func (c *checker) screwed() {
	j := c.joint
	if !j.Stud.Given() {
		return
	}
	s := screwing{around: 1, widen: 1, length: math.NaN()}
	var ok bool
	if s.sheet, ok = c.sheet(j.Stud); !ok {
		return
	}
	major := s.sheet.Thread.Major
	if s.stud, ok = c.member(j.Stud, "stud", false, major, major); !ok {
		return
	}
	s.area = stressArea(s.sheet.Thread, s.sheet.Basic)
	c.answer.Screw = &Screw{Thread: s.sheet.Thread, StressArea: s.area, Enough: math.NaN()}
	s.twist = c.twist(&s, c.worstFriction())
	c.gives(Loaded{Piece: Stud, metal: s.stud, screw: &s})
	if j.Into.Given() && !c.threaded(&s) {
		return
	}
	c.head(&s)
	c.tightening(&s)
}

// sheet returns the thread of a member with its limits: as the part's is made, or
// as the tables have it.
func (c *checker) sheet(m trade.Member) (series.Sheet, bool) {
	designation := m.Thread
	if m.PartSize != "" {
		designation = c.job.Part.Size(m.PartSize).Thread
	}
	thread, ok := facts.FindThread(designation)
	if !ok {
		panic("strength: a checked job names a thread that the tables lack")
	}
	if thread.Tapered {
		return series.Sheet{}, c.fault(m.Pos, "%s is a taper pipe thread: what it holds cannot be worked out", designation)
	}
	s := series.ThreadSheet(thread)
	s.Limits = c.asMade(m, s.Limits)
	return s, true
}

// asMade puts the limits that a thread of the part is made to in the place of those
// of the tables.
func (c *checker) asMade(m trade.Member, tabled []series.Limit) []series.Limit {
	if m.PartSize == "" || c.made == nil {
		return tabled
	}
	made := c.made.Of(m.PartSize)
	if made == nil || made.Thread == nil {
		return tabled
	}
	rest := slices.DeleteFunc(tabled, func(l series.Limit) bool {
		return slices.ContainsFunc(made.Thread.Limits, func(own series.Limit) bool { return own.Of == l.Of })
	})
	return append(rest, made.Thread.Limits...)
}

// class returns the class of a member's thread: its own, or that of the part's.
func (c *checker) class(m trade.Member) string {
	if m.Class == "" && m.PartSize != "" {
		return c.job.Part.Size(m.PartSize).Class
	}
	return m.Class
}

// threaded works out the stripping of both threads.
func (c *checker) threaded(s *screwing) bool {
	into := c.joint.Into
	if !c.goesInto(s) || !c.engaged(s) {
		return false
	}
	width := 0.0
	if into.Outside.Given() {
		width = into.Outside.Inside()
	}
	var ok bool
	if s.nut, ok = c.member(into, "nut or tapped hole", true, width, s.sheet.Thread.Major); !ok {
		return false
	}
	if !c.widened(s, width) {
		return false
	}
	s.full = fullest(s.sheet.Thread, s.sheet.Basic)
	var limited bool
	s.lean, limited = leanest(s.sheet, s.hole, c.class(c.joint.Stud), c.class(into))
	if !limited {
		c.note("the tables have no limits for " + s.sheet.Thread.Designation + ": stripping is worked out at the basic sizes; a loose or worn thread holds less")
	}
	c.strips(s)
	return true
}

// goesInto checks that the hole has the thread of the stud.
func (c *checker) goesInto(s *screwing) bool {
	into := c.joint.Into
	if into.Thread == "" && into.PartSize == "" {
		s.hole = s.sheet
		return true
	}
	var ok bool
	s.hole, ok = c.sheet(into)
	a, b := s.sheet.Thread, s.hole.Thread
	if ok && (math.Abs(a.Major-b.Major) > sameMajor || math.Abs(a.Pitch-b.Pitch) > sameMajor || a.Form != b.Form) {
		return c.fault(into.Pos, "%s does not go into %s", a.Designation, b.Designation)
	}
	return ok
}

// sameMajor is how far basic sizes of one thread by two names may differ, mm.
const sameMajor = 2e-3

// engaged finds how much thread is engaged, along and around.
func (c *checker) engaged(s *screwing) bool {
	stud, into := c.joint.Stud, c.joint.Into
	for _, m := range []trade.Member{stud, into} {
		if m.Length.Given() && !(s.length < m.Length.Inside()) {
			s.length = m.Length.Inside()
		}
		if m.Around.Given() {
			s.around = min(s.around, m.Around.Inside()/(2*math.Pi))
		}
	}
	switch lost := lostThread * s.sheet.Thread.Pitch; {
	case math.IsNaN(s.length):
		return c.fault(into.Pos, "say how much thread is engaged: length: 10 mm")
	case s.length <= lost:
		return c.fault(into.Pos, "%.3g mm of thread engages less than the one thread that the chamfers take, %.3g mm: nothing holds", s.length, lost)
	case s.around < 1:
		c.note("the thread goes round only part of the circle: the flanks also push sideways, which is not worked out; what keeps the halves together must bear it")
	}
	c.note("half a thread at each end of the engagement is taken as cut away by the chamfers (common practice, no source)")
	return true
}

// widened finds by how much the nut's widening lessens what its threads hold.
func (c *checker) widened(s *screwing, width float64) bool {
	if width == 0 {
		c.note("the metal round the tapped hole is taken as thick (1.9 times the thread's diameter or more): state outside: for a nut or a thin boss")
		return true
	}
	ratio := width / s.sheet.Thread.Major
	if ratio <= 1 {
		return c.fault(c.joint.Into.Pos, "outside: %.4g mm leaves no metal round a thread of %.4g mm", width, s.sheet.Thread.Major)
	}
	s.widen = dilation(ratio)
	if ratio < thinnest {
		c.warn("the wall round the thread is thinner than the formula for its widening covers (1.4 times the thread's diameter across): what the threads hold is a guess")
	}
	return true
}

func (c *checker) warn(format string, args ...any) {
	c.answer.Warnings = append(c.answer.Warnings, unit.Say(format, args...))
}

// strips adds the stripping of both threads and finds the length at which the
// stud is as strong as they are.
func (c *checker) strips(s *screwing) {
	pitch := s.sheet.Thread.Pitch
	full := s.length - lostThread*pitch
	screwArea, nutArea := s.around*full*s.lean.screwShear(), s.around*full*s.lean.nutShear()
	a := c.answer.Screw
	a.Full, a.ScrewShear, a.NutShear = full, screwArea, nutArea

	s.threads, s.ratio = full*s.around, s.nut.tensile*nutArea/(s.stud.tensile*screwArea)
	nut := c.gives(Loaded{Piece: NutThread, metal: s.nut, screw: s})
	screw := c.gives(Loaded{Piece: StudThread, metal: s.stud, screw: s})
	if math.IsNaN(s.nut.proof) {
		a.Enough = full*s.stud.tensile*s.area/min(screw, nut) + lostThread*pitch
	}
	if s.nut.family == "cast iron" || s.stud.family == "cast iron" {
		c.note("grey iron is reckoned to shear at 0.577 of its tensile strength, as steel does; it holds more than that (from memory), so it is a poor fuse")
	}
}
