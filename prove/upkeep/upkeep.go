// Package upkeep judges how far slides and screws have worn and how true a
// machine stands, from surveys: what a dial, feelers or rollers showed at places
// along a slide, on collars or on a test bar.
//
// Each survey is one least-squares adjustment of its readings with the errors of
// its instruments, so that a zero cancels where it does at the bench; what follows
// from it carries the standard uncertainty u. Surveys of different days count as
// independent. Several of one kind and of one thing give the rate of wear. Lengths
// are in mm, angles in radians, times in years of 365.25 days.
package upkeep

import (
	"fmt"
	"math"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Result is what the surveys of a job say, in the order of the file, and what
// those of one thing say together.
type Result struct {
	Job     *trade.Job
	Answers []Answer
	Trends  []Trend
}

// Answer is what one survey says.
type Answer struct {
	Survey   *trade.Survey
	Title    string
	Findings []Finding // the chief ones first
	Verdict  Verdict   // against the tolerance, where one is stated
	Judged   string    // what the tolerance was held against
	Conforms float64   // probability that this is within it, NaN without a tolerance
	Advice   []string
	Cautions []string
	Plot     Plot
}

// Name is the kind, what was looked at, which survey it is and its day.
func (a *Answer) Name() string {
	said := []string{a.Title}
	if a.Survey.Of != "" {
		said = append(said, a.Survey.Of)
	}
	return strings.Join(append(said, a.Survey.ID, a.Survey.Date.Format(time.DateOnly)), ", ")
}

// Finding is one figure found: in mm, radians or a plain number, with its standard
// uncertainty.
type Finding struct {
	Key       string // of JSON
	Name      string
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

// kinds works out the surveys of each kind.
var kinds = map[trade.SurveyKind]func(*look) error{
	trade.LostMotion:   (*look).lostMotion,
	trade.ScrewPitch:   (*look).screwPitch,
	trade.Straightness: (*look).straightness,
	trade.SlidePlay:    (*look).slidePlay,
	trade.TwoCollar:    (*look).twoCollar,
	trade.TestBar:      (*look).testBar,
	trade.Facing:       (*look).facing,
	trade.Ram:          (*look).ram,
	trade.Dovetail:     (*look).dovetail,
}

// Judge works out all surveys of a job that jobfile has checked. An error is
// trade.Faults: a job without surveys, or readings that no such thing can have.
func Judge(job *trade.Job) (*Result, error) {
	var faults trade.Faults
	if len(job.Surveys) == 0 {
		faults.Add(trade.Pos{}, "the job has no surveys: write what was read under surveys:")
	}
	r := &Result{Job: job}
	for i := range job.Surveys {
		s := &job.Surveys[i]
		l := &look{Survey: s, job: job, answer: &Answer{
			Survey: s, Title: trade.SurveyFormOf(s.Kind).Title, Conforms: math.NaN(),
		}}
		if err := kinds[s.Kind](l); err != nil {
			faults.Add(s.Pos, "%s: %v", s.ID, err)
		}
		r.Answers = append(r.Answers, *l.answer)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	r.Trends = trends(r)
	return r, nil
}

// look works out one survey.
type look struct {
	*trade.Survey
	job    *trade.Job
	answer *Answer
}

// mm writes a length in the units of the job.
func (l *look) mm(x float64) string { return unit.ShowLength(x, l.job.Shown()) }

func (l *look) advise(format string, args ...any) {
	l.answer.Advice = append(l.answer.Advice, fmt.Sprintf(format, args...))
}

func (l *look) caution(format string, args ...any) {
	l.answer.Cautions = append(l.answer.Cautions, fmt.Sprintf(format, args...))
}

// find adds a length that was found, and returns it to be marked further.
func (l *look) find(key, name string, f found) *Finding {
	l.answer.Findings = append(l.answer.Findings, Finding{Key: key, Name: name, Value: f.value, U: f.u, Dimension: unit.Length})
	return &l.answer.Findings[len(l.answer.Findings)-1]
}

// stated returns the one value under a key, or what is taken where there is none.
func (l *look) stated(key string, otherwise float64) float64 {
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
