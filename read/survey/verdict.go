package survey

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

// Judge holds a figure against limits, which may be infinite. Of several figures
// the worst verdict counts.
func (l *Look) Judge(what string, f Found, low, high float64) {
	p := between(f, low, high)
	if !math.IsNaN(l.Answer.Conforms) && l.Answer.Conforms <= p {
		return
	}
	l.Answer.Judged, l.Answer.Conforms = what, p
	switch {
	case p >= proved:
		l.Answer.Verdict = Keeps
	case p <= 1-proved:
		l.Answer.Verdict = Exceeds
	default:
		l.Answer.Verdict = CannotTell
	}
}

// JudgeSize holds the size of a figure, of whatever sign, against the tolerance of
// the survey, if there is one.
func (l *Look) JudgeSize(what string, f Found) {
	if l.Within.Given() {
		l.Judge(what, f, -l.Within.Inside(), l.Within.Inside())
	}
}

// between returns the probability that a normal quantity lies between limits.
func between(f Found, low, high float64) float64 {
	below := func(limit float64) float64 { return math.Erfc((f.Value-limit)/(f.U*math.Sqrt2)) / 2 }
	return below(high) - below(low)
}
