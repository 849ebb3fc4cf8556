package sound

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// surveys checks what was looked at for wear.
func (c *check) surveys() {
	ids := among{}
	for i := range c.job.Surveys {
		s := &c.job.Surveys[i]
		ids.claimNumbered(c, s.ID, aSurvey, i, s.Pos)
		c.survey(s, called(aSurvey, s.ID, i))
	}
}

func (c *check) survey(s *trade.Survey, what string) {
	kind, known := survey.Find(s.Kind)
	values := []told{
		{"kind", string(s.Kind)},
		{"of", s.Of},
		{"date", s.Date},
		{"with", s.With},
		{"within", s.Within},
		{"say", s.Say},
		{"at", several(len(s.Stations))},
		{"rollers", several(len(s.Rollers))},
	}
	if known {
		values = append(values, figures(s, kind)...)
	}
	m := c.tell("surveys", what, s.Pos, values...)
	m.showsLengths("with", s.With)
	if !known {
		return // a fault already
	}
	c.surveyFigures(m, s, kind)
	c.stations(m, s)
	c.rollers(m, s)
}

// figures tells what stands under the keys of a kind: a word, one value, or how
// many were read.
func figures(s *trade.Survey, kind *survey.Kind) []told {
	var list []told
	for _, key := range kind.Keys {
		values := s.Values(key.Name)
		switch key.Sort {
		case survey.Word, survey.Instrument:
			list = append(list, told{key.Name, s.Word(key.Name, "")})
		case survey.Readings:
			list = append(list, told{key.Name, several(len(values))})
		default:
			var q unit.Quantity
			if len(values) > 0 {
				q = values[0]
			}
			list = append(list, told{key.Name, q})
		}
	}
	return list
}

// surveyFigures checks what no description says of figures.
func (c *check) surveyFigures(m *mapping, s *trade.Survey, kind *survey.Kind) {
	for i, f := range s.Figures {
		key := kind.Key(f.Key)
		if key == nil {
			c.unknown(f.Key, m.what, "key", s.Pos, nil)
			continue
		}
		if slices.ContainsFunc(s.Figures[:i], func(before trade.SurveyFigure) bool { return before.Key == f.Key }) {
			m.wrong(f.Key, " stands there twice")
		}
		switch sort := key.Sort; {
		case sort == survey.Readings:
			m.lengths(f.Key, f.Values...)
		case sort == survey.Instrument:
			m.showsLengths(f.Key, f.Word)
		case sort == survey.Angle && len(f.Values) == 1 && isSquareOrMore(f.Values[0]):
			m.wrong(f.Key, " is %s; a flank leans by less than 90°", f.Values[0])
		case sort != survey.Word && len(f.Values) != 1:
			m.wrong(f.Key, ": it is one value; there are %d", len(f.Values))
		}
	}
}

// isSquareOrMore reports whether an angle is 90° or more.
func isSquareOrMore(q unit.Quantity) bool {
	return q.Given() && q.Dimension() == unit.Angle && q.Inside() >= math.Pi/2
}

// showsLengths faults an instrument that shows angles.
func (m *mapping) showsLengths(key, id string) {
	if i := m.job.Instrument(id); i != nil && gauge.InstrumentReads(i) != unit.Length {
		m.wrong(key, ": %s shows angles where lengths were read", id)
	}
}

// stations checks what was read along a slide: each place once, in rising order.
func (c *check) stations(m *mapping, s *trade.Survey) {
	for i, t := range s.Stations {
		m.lengths("at", t.At)
		m.read("at", t.Saw)
		if i == 0 || t.At.Dimension() != unit.Length || !t.At.Given() || !s.Stations[i-1].At.Given() {
			continue
		}
		switch before := s.Stations[i-1].At; {
		case t.At.Equal(before):
			c.fault(t.Pos, "%s: the place %s stands here a second time; write its values as one list", m.what, t.At)
		case t.At.Inside() < before.Inside():
			c.fault(t.Pos, "%s: the place %s stands after %s; they are in order along the slide", m.what, t.At,
				before)
		}
	}
}

// read checks what was read in one place.
func (m *mapping) read(key string, saw []unit.Quantity) {
	if len(saw) == 0 || len(saw) > keys.MostRepeats {
		m.wrong(key, ": %d values were read in one place; it takes from 1 to %d", len(saw), keys.MostRepeats)
		return
	}
	m.lengths(key, saw...)
}

// rollers checks what was read over or between rollers, at two depths where nothing
// else tells the angle.
func (c *check) rollers(m *mapping, s *trade.Survey) {
	deeper := false
	for i, x := range s.Rollers {
		r := c.tell("surveys.rollers", numbered("roller reading", i)+" of "+m.what, x.Pos, told{"at", x.At},
			told{"roller", x.Roller}, told{"raised", x.Raised}, told{"saw", several(len(x.Saw))})
		r.read("saw", x.Saw)
		deeper = deeper || !x.Roller.Same(s.Rollers[0].Roller) || !x.Raised.Equal(s.Rollers[0].Raised)
	}
	if len(s.Rollers) > 0 && !deeper && !m.has("angle") {
		c.fault(s.Pos,
			`%s: all at one depth, which tells no angle: read with a second size of roller, or write "angle"`, m.what)
	}
}
