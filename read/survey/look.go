package survey

import (
	"math"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Answer is what one survey says.
type Answer struct {
	Survey   *trade.Survey
	Kind     *Kind
	Findings []Finding // the chief ones first
	Verdict  Verdict   // against the tolerance, where one is stated
	Judged   string    // what the tolerance was held against
	Conforms float64   // probability that this is within it, NaN without a tolerance
	Advice   []unit.Text
	Cautions []unit.Text
	Plot     Plot
}

// Name is the kind, what was looked at, which survey it is and its day.
func (a *Answer) Name() string {
	said := []string{a.Kind.Title}
	if a.Survey.Of != "" {
		said = append(said, a.Survey.Of)
	}
	return strings.Join(append(said, a.Survey.ID, a.Survey.Date.Format(time.DateOnly)), ", ")
}

// Finding is one figure found: in mm, radians or a plain number, with its standard
// uncertainty.
type Finding struct {
	Key       string // of JSON
	Name      unit.Text
	Value, U  float64
	Dimension unit.Dimension
	Wears     bool // it can only grow as the machine wears
}

// Finding returns the finding with this key, nil where there is none.
func (a *Answer) Finding(key string) *Finding {
	for i := range a.Findings {
		if a.Findings[i].Key == key {
			return &a.Findings[i]
		}
	}
	return nil
}

// WorkOut works out a survey of a job, which must be sound. It is an error where no
// such thing can have given the readings.
func WorkOut(job *trade.Job, s *trade.Survey) (*Answer, error) {
	kind, ok := Find(s.Kind)
	if !ok {
		panic("survey: a sound job has a survey of no kind")
	}
	l := &Look{Survey: s, job: job, Answer: &Answer{Survey: s, Kind: kind, Conforms: math.NaN()}}
	return l.Answer, kind.Work(l)
}

// Look works out one survey.
type Look struct {
	*trade.Survey
	Answer *Answer
	job    *trade.Job
}

// Advise says what to do.
func (l *Look) Advise(format string, args ...any) {
	l.Answer.Advice = append(l.Answer.Advice, unit.Say(format, args...))
}

// Caution says what to take care of.
func (l *Look) Caution(format string, args ...any) {
	l.Answer.Cautions = append(l.Answer.Cautions, unit.Say(format, args...))
}

// Find adds a length that was found, and returns it to be marked further. The name
// is a format with its arguments, as of unit.Say.
func (l *Look) Find(key string, f Found, name string, args ...any) *Finding {
	l.Answer.Findings = append(l.Answer.Findings, Finding{Key: key, Name: unit.Say(name, args...), Value: f.Value, U: f.U, Dimension: unit.Length})
	return &l.Answer.Findings[len(l.Answer.Findings)-1]
}

// Stated returns the one value under a key, or what is taken where there is none.
func (l *Look) Stated(key string, otherwise float64) float64 {
	if values := l.Values(key); len(values) > 0 {
		return values[0].Inside()
	}
	return otherwise
}

// inside returns values as the program works with them.
func inside(values []unit.Quantity) []float64 {
	list := make([]float64, len(values))
	for i, q := range values {
		list[i] = q.Inside()
	}
	return list
}
