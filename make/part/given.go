package part

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// given is a measure of the shape: what it is there and where it was written.
type given struct {
	Measure
	what string // "chamfer"; empty for one that is not stated
	pos  trade.Pos
	in   unit.Unit
}

func (g given) stated() bool { return g.what != "" }

// String names the size for a fault: "the length long of 62.000 mm".
func (g given) String() string {
	value := unit.ShowLength(g.Value, g.in)
	if g.Kind.Dimension() == unit.Angle {
		value = unit.ShowAngle(g.Value)
	}
	if g.Name == "" {
		return fmt.Sprintf("the %s of %s", g.what, value)
	}
	return fmt.Sprintf("the %s %s of %s", g.what, g.Name, value)
}

// written is the figure as it was written, where it was, else to a thousandth.
func (g given) written() string {
	if g.Written.Given() {
		return g.Written.String()
	}
	return unit.ShowLength(g.Value, g.in)
}

// deep calls a depth out with a dimension: through where none is stated.
func (g given) deep(d Dimension) Dimension {
	if d.After = "through"; g.stated() {
		d.After, d.Second = "deep #", g.Measure
	}
	return d
}

// named is what a size is called: its id, else the figure.
func (g given) named() string {
	if g.Name != "" {
		return g.Name
	}
	return g.written()
}

// size returns what stands for a measure of the shape. One that cannot be had
// is refused and has no number, so that nothing further is said of it.
func (b *builder) size(m trade.Measure, kind trade.SizeKind, what string) given {
	if !m.Given() {
		return given{}
	}
	g := given{what: what, pos: m.Pos, in: b.job.Units}
	if m.ID == "" {
		g.Measure = plain(m.Value, kind)
		return g
	}
	size := b.part.Size(m.ID)
	if size == nil {
		b.refuse(places(g), "there is no size %q among the sizes of the part", m.ID)
		g.Measure = Measure{Name: m.ID, Kind: kind, Value: math.NaN()}
		return g
	}
	g.Measure = b.measure(size)
	if math.IsNaN(g.Value) {
		b.refuse(places(g), "the %s is the size %s, and what that is to be cannot be worked out", what, m.ID)
	}
	return g
}

// needed is size for a measure that the shape cannot do without.
func (b *builder) needed(m trade.Measure, kind trade.SizeKind, what string) given {
	if m.Given() {
		return b.size(m, kind, what)
	}
	b.refuse(nil, "the shape of a %s needs its %s", b.called(), what)
	return given{Measure: Measure{Kind: kind, Value: math.NaN()}, what: what, in: b.job.Units}
}

// plain is the measure of a value written in the shape itself.
func plain(q unit.Quantity, kind trade.SizeKind) Measure {
	value := q.Inside()
	return Measure{Kind: kind, Value: value, Low: value, High: value, Written: q}
}

// orZero is the size, or nothing where none is stated.
func (g given) orZero() float64 {
	if g.stated() {
		return g.Value
	}
	return 0
}

// allMeasures lists the sizes of the part, in the order of the job file.
func (b *builder) allMeasures() {
	for i := range b.part.Sizes {
		if m := b.measure(&b.part.Sizes[i]); !math.IsNaN(m.Value) {
			b.model.Measures = append(b.model.Measures, m)
		}
	}
}

// measure is a size of the part as it is to be made: as fit found it, or by
// itself where it is a plain value or a thread. Its value is NaN where neither
// says.
func (b *builder) measure(s *trade.NewSize) Measure {
	m := Measure{Name: s.ID, Kind: s.Kind, Value: math.NaN(), From: origin(s.From), Why: because(s)}
	made := b.madeOf(s.ID)
	switch {
	case s.From == trade.IsThread:
		m.Kind = trade.Diameter
		if t, ok := b.row(s); ok {
			m.Value, m.Low, m.High = t.Major, t.Major, t.Major
		}
	case made != nil:
		m.Value, m.Low, m.High, m.U = made.Target, made.Low, made.High, made.U
		if s.Tolerance != "" {
			m.Code = made.Code // a fit's code would not be true of limits worked out from the mate
		}
		if low, high, ok := made.Limits(b.job.Units); ok {
			m.Low, m.High = low, high // as they are printed everywhere
		}
		if made.Decided {
			m.From, m.Written = Meant, b.meant(s)
		}
	}
	if s.From == trade.Is {
		b.plainly(&m, s)
	}
	return m
}

// plainly takes a value that is written as such, with its limits where fit did
// not set them.
func (b *builder) plainly(m *Measure, s *trade.NewSize) {
	q := b.read(s.Of.Text, s.Kind.Dimension())
	if !q.Given() {
		return
	}
	m.Written = q
	if !math.IsNaN(m.Value) {
		return
	}
	m.Value = q.Inside()
	m.Low, m.High = m.Value, m.Value
	if s.Within.Given() {
		m.Low, m.High = m.Value-s.Within.Inside(), m.Value+s.Within.Inside()
	}
}

// read returns a quantity as it is written, not given where the text is an
// expression.
func (b *builder) read(text string, d unit.Dimension) unit.Quantity {
	reader := func(text string) (unit.Quantity, error) { return unit.ParseLength(text, b.job.Units) }
	if d == unit.Angle {
		reader = unit.ParseAngle
	}
	q, err := reader(strings.TrimSpace(text))
	if err != nil {
		return unit.Quantity{}
	}
	return q
}

// meant is what the user decided of the single size that is copied.
func (b *builder) meant(s *trade.NewSize) unit.Quantity {
	if old := b.job.Size(strings.TrimSpace(s.Of.Text)); old != nil {
		return b.read(old.Meant, old.Kind.Dimension())
	}
	return unit.Quantity{}
}

func (b *builder) madeOf(id string) *fit.Made {
	if b.made == nil {
		return nil
	}
	return b.made.Of(id)
}

func origin(from trade.Origin) Origin {
	switch from {
	case trade.GoesIn, trade.GoesOver:
		return MadeToFit
	case trade.Copies:
		return Measured
	case trade.IsThread:
		return Standard
	}
	return Chosen
}

// as names the fit that is wanted.
func as(fit string) string {
	if fit == "" {
		return ""
	}
	return " as " + fit
}

// because says in a few words why a size is what it is.
func because(s *trade.NewSize) string {
	switch s.From {
	case trade.GoesIn:
		return "goes in " + s.Of.Text + as(s.Fit)
	case trade.GoesOver:
		return "goes over " + s.Of.Text + as(s.Fit)
	case trade.Copies:
		return "copies " + s.Of.Text
	case trade.IsThread:
		return s.Thread
	}
	return s.Say
}

// row returns the row of the thread tables that a size names.
func (b *builder) row(s *trade.NewSize) (facts.Thread, bool) {
	if made := b.madeOf(s.ID); made != nil && made.Thread != nil {
		return made.Thread.Thread, true
	}
	return facts.FindThread(s.Thread)
}

// thread returns the thread that a place of the shape names, and the size that
// is dimensioned: its major diameter.
func (b *builder) thread(id string, inside bool, pos trade.Pos) (*Thread, given) {
	g := given{what: "thread", pos: pos, in: b.job.Units}
	g.Name, g.Kind, g.Value = id, trade.Diameter, math.NaN()
	s := b.part.Size(id)
	if s == nil || s.From != trade.IsThread {
		b.refuse(places(g), "%q is no thread among the sizes of the part", id)
		return &Thread{Name: id, Major: math.NaN(), Minor: math.NaN()}, g
	}
	t, known := b.row(s)
	if !known {
		b.refuse(places(g), "the tables have no thread %q", s.Thread)
		return &Thread{Name: id, Major: math.NaN(), Minor: math.NaN()}, g
	}
	g.Measure = b.measure(s)
	basic := series.ThreadSheet(t).Basic
	thread := &Thread{Name: id, Designation: t.Designation, Class: s.Class, Major: t.Major, Minor: basic.MinorScrew, Pitch: t.Pitch, Left: s.Hand == trade.LeftHand}
	if inside {
		thread.Minor = basic.MinorNut
	}
	return thread, g
}
