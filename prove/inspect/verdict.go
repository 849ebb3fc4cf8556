package inspect

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Verdict is how one size of one piece stands.
type Verdict struct {
	Made      *fit.Made
	Value, U  float64 // as found; NaN where it is not
	Limits    Limits
	Chance    float64 // that it lies within them
	Says      Saying
	Why       string   // it does not say more
	Readings  []string // by which it was found
	Corrected float64  // mm taken off a reading because the piece was warm, 0 for none
	Good      Judge    // how good the readings are beside the tolerance
	Take      *Take    // what is to come off yet; nil unless it is in the machine
}

// verdict returns what the readings of a piece say of a size, nil where it was
// not read.
func (p *proof) verdict(m *fit.Made, found *adjust.Result, checks []trade.Check, cool *cooled) *Verdict {
	by := func(list []trade.Check) []trade.Check {
		return slices.DeleteFunc(slices.Clone(list), func(c trade.Check) bool { return !slices.Contains(sizesIn(&c.Reading), m.Size.ID) })
	}
	read := by(checks)
	if len(read) == 0 {
		return nil
	}
	v := &Verdict{Made: m, Value: nan, U: nan, Chance: nan, Says: NoVerdict, Limits: p.limits(m)}
	used := by(cool.checks)
	for _, c := range used {
		v.Readings = append(v.Readings, c.ID)
		if off := cool.by[c.ID]; off != 0 {
			v.Corrected = off
		}
	}
	size := found.Size(ofThePart + m.Size.ID)
	switch {
	case len(used) == 0:
		v.Why = cool.warm[read[len(read)-1].ID]
	case !size.Determined:
		v.Why = "these readings alone do not tell it: read the other sizes that stand in them too"
	default:
		v.Value, v.U = size.Value, size.U
		p.decide(v, found)
		if last := read[len(read)-1]; last.InMachine && finite(v.Chance) && m.Size.Kind.Dimension() == unit.Length {
			v.Take = p.take(v)
		}
	}
	return v
}

// decide says how a size that has been found stands.
func (p *proof) decide(v *Verdict, found *adjust.Result) {
	switch suspect := suspectAmong(found, v.Readings); {
	case !v.Made.Determined:
		v.Why = "what it is to be made to is not found yet"
		return
	case !(v.Limits.Low < v.Limits.High):
		v.Why = "it has no limits of its own; the general tolerance of the drawing holds"
		return
	case suspect != "":
		v.Why = "the reading " + suspect + " contradicts the others: read it again"
		return
	}
	v.Chance = v.Limits.Chance(v.Value, v.U)
	v.Says = v.Limits.Decide(v.Value, v.U, Proven)
	v.Good = judgeOf(adjust.Coverage95*v.U, v.Limits)
	if v.Says == CannotTell {
		v.Why = "it lies too near a limit for what is known of it"
		if v.Good == Unfit {
			v.Why = "the readings are not good enough for this tolerance"
		}
	}
}

// suspectAmong returns a suspect reading among those named, empty for none.
func suspectAmong(r *adjust.Result, ids []string) string {
	i := slices.IndexFunc(r.Readings, func(v adjust.Value) bool { return v.Suspect && slices.Contains(ids, v.ID) })
	if i < 0 {
		return ""
	}
	return r.Readings[i].ID
}

// limits returns what a size must lie between: its limits as they are printed.
func (p *proof) limits(m *fit.Made) Limits {
	in := unit.Millimetre
	if p.Job.Units == unit.Inch {
		in = unit.Inch
	}
	if low, high, ok := m.Limits(in); ok && m.Size.Kind.Dimension() == unit.Length && m.Low < m.High {
		return Limits{low, high}
	}
	return Limits{m.Low, m.High}
}

// Judge is how good a reading is for a tolerance.
type Judge uint8

// The judges: with the 95 % half width of a reading up to a third of the
// tolerance, up to half of it, and beyond (common practice, no source).
const (
	Fit Judge = iota
	Doubtful
	Unfit
)

func judgeOf(half float64, l Limits) Judge {
	switch {
	case half > l.Width()/2:
		return Unfit
	case half > l.Width()/3:
		return Doubtful
	}
	return Fit
}

// cutPart returns the id of a size of the part, false for one of the job.
func cutPart(id string) (string, bool) { return strings.CutPrefix(id, ofThePart) }
