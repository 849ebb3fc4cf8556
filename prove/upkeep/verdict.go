package upkeep

import "math"

// Verdict says whether a tolerance is kept.
type Verdict string

// The verdicts.
const (
	NotJudged  Verdict = ""
	Keeps      Verdict = "within"
	Exceeds    Verdict = "beyond"
	CannotTell Verdict = "cannot tell"
)

// proved is the probability from which a tolerance counts as kept, or as not kept
// (ISO 14253-1:2017, default rule, from memory).
const proved = 0.95

// judge holds a figure against limits, which may be infinite. Of several figures
// the worst verdict counts.
func (l *look) judge(what string, f found, low, high float64) {
	p := between(f, low, high)
	if !math.IsNaN(l.answer.Conforms) && l.answer.Conforms <= p {
		return
	}
	l.answer.Judged, l.answer.Conforms = what, p
	switch {
	case p >= proved:
		l.answer.Verdict = Keeps
	case p <= 1-proved:
		l.answer.Verdict = Exceeds
	default:
		l.answer.Verdict = CannotTell
	}
}

// judgeSize holds the size of a figure, of whatever sign, against the tolerance of
// the survey, if there is one.
func (l *look) judgeSize(what string, f found) {
	if l.Within.Given() {
		l.judge(what, f, -l.Within.Inside(), l.Within.Inside())
	}
}

// between returns the probability that a normal quantity lies between limits.
func between(f found, low, high float64) float64 {
	below := func(limit float64) float64 { return math.Erfc((f.value-limit)/(f.u*math.Sqrt2)) / 2 }
	return below(high) - below(low)
}
