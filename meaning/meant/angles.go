package meant

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// The figures for angles: our choice, no source. Half angles are mostly those of
// tapers, which are round in other ways.
const (
	usualMakeDegrees = 0.05
	roundAngles      = 0.8
	roundHalfAngles  = 0.4
)

// degrees are the grid of included angles; a half angle is round where its
// double is. A mass is in degrees.
var degrees = newGrid(1.0/wholeDegree, []int64{15 * wholeDegree, 5 * wholeDegree, wholeDegree, wholeDegree / 2, wholeDegree / 4},
	[]float64{.35, .25, .25, .12, .03})

const degree = math.Pi / 180

// angles returns what was meant by the angles, each by itself: the share of
// round angles is fixed.
func angles(r *adjust.Result) (list []Size, warnings []unit.Text) {
	for i := range r.Job.Sizes {
		size := &r.Job.Sizes[i]
		found := r.Size(size.ID)
		if size.Kind.Dimension() != unit.Angle || !found.Determined || ofThread(r.Job, size.ID) && size.Meant == "" {
			continue
		}
		a := newAngle(size, found)
		if q, err := unit.ParseAngle(size.Meant); err == nil {
			out, warning := a.decided(q)
			list = append(list, out)
			warnings = append(warnings, warning...)
			continue
		}
		list = append(list, a.answer())
	}
	return list, warnings
}

// angle is one angle as the model sees it, in degrees.
type angle struct {
	size    *trade.Size
	x       float64
	scatter scatter
	parts   int64   // of the angle in the included angle: 2 for a half angle
	round   float64 // share
}

func newAngle(size *trade.Size, found *adjust.Size) *angle {
	a := &angle{size: size, x: found.Value / degree, parts: 1, round: roundAngles}
	a.scatter = newScatter(found.U/degree, makeOf(size, usualMakeDegrees*degree)/degree, 0, 0)
	if size.Kind == trade.HalfAngle {
		a.parts, a.round = 2, roundHalfAngles
	}
	return a
}

// decided returns the user's word for what was meant.
func (a *angle) decided(q unit.Quantity) (Size, []unit.Text) {
	c := a.candidate(q.Inside()/degree, 1)
	c.Text = strings.TrimSpace(a.size.Meant)
	var warnings []unit.Text
	if c.Beyond > contradicted {
		warnings = append(warnings, unit.Say("%s: meant to be %s, but it was found %s %s, %.1f standard deviations off with making and reading counted; keep it only if you know why",
			a.size.ID, c.Text, unit.AngleOf(math.Abs(c.Off)), than(c.Off), c.Beyond))
	}
	return Size{ID: a.size.ID, Designer: 1, Decided: true, Candidates: []Candidate{c}}, warnings
}

// candidate is an angle in degrees that may have been meant.
func (a *angle) candidate(at, p float64) Candidate {
	return Candidate{Value: at * degree, P: p, Off: (at - a.x) * degree, Beyond: a.scatter.beyond(at - a.x)}
}

// answer weighs the round angles against none, whose density is 1 per degree.
func (a *angle) answer() Size {
	out := Size{ID: a.size.ID, Designer: 1, NoRound: 1}
	whole := float64(a.parts) * wholeDegree
	below, above := a.scatter.reach()
	if below+above > 90 {
		return out
	}
	total := 1 - a.round
	from, to := (a.x-below)*whole, (a.x+above)*whole
	degrees.between(int64(math.Ceil(from)), int64(math.Floor(to)), func(n int64, mass float64) {
		at := float64(n) / whole
		c := a.candidate(at, a.round*mass/float64(a.parts)*a.scatter.density(at-a.x))
		c.Text = degreesText(n, a.parts*wholeDegree)
		out.Candidates = append(out.Candidates, c)
		total += c.P
	})
	for i := range out.Candidates {
		out.Candidates[i].P /= total
	}
	out.NoRound = (1 - a.round) / total
	bestFirst(out.Candidates)
	return out
}

func degreesText(num, den int64) string {
	q, err := unit.New(num, den, unit.Degree)
	if err != nil {
		panic("meant: an angle within reach has too many digits")
	}
	return q.String()
}
