package inspect

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Offer is how one size as it was made will go with its mate, before anything is
// put together. An interference is a negative clearance.
type Offer struct {
	Made      *fit.Made
	Clearance float64 // to expect, where a mate out of form is tightest
	U         float64 // its standard uncertainty: zeros that have read both cancel
	Least     float64 // wanted
	Most      float64
	Binds     float64 // chance that there is no clearance at all
	Tight     float64 // chance that there is less than is wanted
	Slack     float64 // chance that there is more
	Ease      float64 // to take off the size, or out of it, so that it has what is wanted with the chance promised; 0 for nothing
}

// offerUp says how the sizes of a piece that have been read will go with their
// mates.
func (p *proof) offerUp(piece *Piece) {
	for i := range piece.Verdicts {
		v := &piece.Verdicts[i]
		if v.Made.Mating == nil || !finite(v.U) {
			continue
		}
		c, u := clearance(piece.Found, v.Made)
		if finite(c) && finite(u) {
			piece.Offers = append(piece.Offers, offer(v.Made, c, u))
		}
	}
}

func offer(m *fit.Made, c, u float64) Offer {
	w := m.Mating
	tightest := w.Mate - w.LeastMate
	if m.Size.From == trade.GoesOver {
		tightest = w.MostMate - w.Mate
	}
	slackest := (w.MostMate - w.LeastMate) - tightest
	o := Offer{Made: m, Clearance: c - tightest, U: u, Least: w.Least, Most: w.Most}
	between := func(limit, clearance float64) float64 {
		if u == 0 {
			return map[bool]float64{true: 1, false: 0}[clearance < limit]
		}
		return normal((limit - clearance) / u)
	}
	o.Binds, o.Tight, o.Slack = between(0, o.Clearance), between(o.Least, o.Clearance), 1-between(o.Most, c+slackest)
	if m.Size.From == trade.GoesIn || m.Size.From == trade.GoesOver {
		promised := max(w.Promised, 1-risk)
		if enters := min(0, o.Least); between(enters, o.Clearance) > 1-promised {
			o.Ease = enters + Guard(promised)*u - o.Clearance
		}
	}
	return o
}

// offerMates asks of every pair of mating shapes of which something has been read
// whether it goes together as the part was made: what has been read counts as found
// with the old part, so that zeros that have read both cancel, and the rest lies
// anywhere between its limits.
func (p *proof) offerMates(piece *Piece) error {
	answers, err := mating.Check(p.ctx, piece.Found, p.made, p.seed)
	if err != nil {
		return err
	}
	for _, a := range answers {
		if slices.ContainsFunc(a.Mate.Of, func(arg trade.MateArg) bool { return anyOf(namesIn(arg.Value), piece) }) {
			piece.Mates = append(piece.Mates, a)
		}
	}
	return nil
}

// anyOf reports whether one of these sizes of the part has been found.
func anyOf(ids []string, piece *Piece) bool {
	return slices.ContainsFunc(ids, func(id string) bool {
		return slices.ContainsFunc(piece.Verdicts, func(v Verdict) bool { return v.Made.Size.ID == id && finite(v.U) })
	})
}

// EaseFirst returns the face of a mating answer that is tightest, and how far it
// stands past its mate; false where it goes in.
func EaseFirst(a *mating.Answer) (face string, by float64, binds bool) {
	if !a.Known() || a.GoesIn() || len(a.Faces) == 0 {
		return "", 0, false
	}
	tightest := slices.MinFunc(a.Faces, func(x, y mating.Face) int {
		if x.Least < y.Least {
			return -1
		}
		return 1
	})
	return tightest.Name, -tightest.Least, true
}

// half is the 95 % half width of a standard uncertainty.
func half(u float64) float64 { return adjust.Coverage95 * u }
