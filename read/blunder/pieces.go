package blunder

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// share is what a piece, or several together, put into a reading.
type share struct {
	name   string
	amount float64 // mm, below 0 where it is taken away
	half   bool    // one of two that are alike: nobody adds the one and takes away the other
}

// shares lists what pieces put into the culprit's reading: each by itself, and
// both where there are two.
func (a *account) shares() []share {
	reading := a.r.Job.Reading(a.source.ID)
	method, _ := gauge.Find(reading.By)
	var list []share
	for _, arg := range reading.Of {
		count := counted(method, arg.Role)
		size, name := a.pieceIn(arg)
		switch {
		case count == 0 || !(size > 0):
		case math.Abs(count) == 2:
			return alike(name, count/2*size)
		default:
			list = append(list, share{name: name, amount: count * size})
		}
	}
	if len(list) < 2 {
		return list
	}
	if list[0] == list[1] {
		return alike(list[0].name, list[0].amount)
	}
	return append(list, share{name: list[0].name + " and " + list[1].name, amount: list[0].amount + list[1].amount})
}

// counted returns how often the size of the piece in a role lies between the
// measuring faces, 0 where nobody would count it.
func counted(m *gauge.Method, role string) float64 {
	if i := m.Role(role); i >= 0 {
		return m.Roles[i].Counted
	}
	return 0
}

// alike are the shares of two pieces with the same name.
func alike(name string, each float64) []share {
	name = strings.TrimPrefix(name, "the ")
	return []share{{name: "one of the two " + name, amount: each, half: true}, {name: "both " + name, amount: 2 * each}}
}

// pieceIn returns the size of the gauge piece, or the plain length, in a role,
// and what to call it; 0 for anything else.
func (a *account) pieceIn(arg trade.Arg) (size float64, name string) {
	if arg.ID == "" {
		return arg.Value.Inside(), "the " + arg.Role
	}
	if piece := a.r.Job.Piece(arg.ID); piece != nil {
		return piece.Size.Inside(), arg.ID
	}
	return 0, ""
}

// miscounted lists the ways in which pieces may have been counted wrong.
func (a *account) miscounted() []slip {
	shares := a.shares()
	part := 1 / float64(len(shares))
	var list []slip
	for _, p := range shares {
		wrong := p.name + " taken away instead of added"
		if p.amount < 0 {
			wrong = p.name + " added instead of taken away"
		}
		list = append(list, a.lessBy(-p.amount, PieceForgotten, p.name+" forgotten", part)...)
		list = append(list, a.lessBy(p.amount, PieceDoubled, p.name+" counted twice", part)...)
		if !p.half {
			list = append(list, a.lessBy(-2*p.amount, PieceAdded, wrong, part)...)
		}
	}
	return append(list, a.miscountedInFormula()...)
}

// inPlace writes something else for one name of a formula. It has been found sound,
// and what is written measures the same, so that it can be read again.
func inPlace(job *trade.Job, formula trade.Formula, name, other string) trade.Formula {
	if !formula.Given() {
		return formula
	}
	changed, err := job.Formula(formula.Expr().WithNumbers(func(found string) string {
		if found == name {
			return other
		}
		return found
	}))
	if err != nil {
		panic("blunder: a formula with another piece in it cannot be read: " + err.Error())
	}
	return changed
}

// miscountedInFormula lists the same for the pieces in a formula.
func (a *account) miscountedInFormula() []slip {
	reading := a.r.Job.Reading(a.source.ID)
	pieces := a.piecesIn(reading)
	if !reading.That.Given() || len(pieces) == 0 {
		return nil
	}
	part := 1 / float64(len(pieces))
	ways := []struct {
		kind      Kind
		how, text string
	}{
		{PieceForgotten, "(0*%s)", " forgotten"},
		{PieceDoubled, "(2*%s)", " counted twice"},
		{PieceAdded, "(-1*%s)", " counted the wrong way"},
	}
	var list []slip
	for _, id := range pieces {
		var setUps []trade.Reading
		for _, way := range ways {
			changed := *reading
			changed.That = inPlace(a.r.Job, reading.That, id, fmt.Sprintf(way.how, id))
			setUps = append(setUps, changed)
		}
		for i, shown := range a.wouldShow(setUps) {
			list = append(list, a.lessBy(shown-a.predicted, ways[i].kind, id+ways[i].text, part)...)
		}
	}
	return list
}

// piecesIn returns the gauge pieces that a reading uses, each once.
func (a *account) piecesIn(reading *trade.Reading) []string {
	var list []string
	for _, piece := range a.r.Job.Pieces {
		if uses(reading, piece.ID) {
			list = append(list, piece.ID)
		}
	}
	return list
}

// uses reports whether a gauge piece stands in a reading.
func uses(reading *trade.Reading, piece string) bool {
	return reading.Goes.ID == piece || reading.Stops.ID == piece || slices.Contains(reading.That.Names(), piece) ||
		slices.ContainsFunc(reading.Of, func(arg trade.Arg) bool { return arg.ID == piece })
}

// wouldShow returns what the culprit's reading, set up otherwise, would show
// at the sizes the others give, NaN where that set-up cannot be.
func (a *account) wouldShow(setUps []trade.Reading) []float64 {
	job := draft(a.base.Job)
	first := len(job.Readings)
	for i, r := range setUps {
		r.ID = fmt.Sprint(i) // no name that the file can have
		r.Saw = nil
		job.Readings = append(job.Readings, r)
	}
	list := make([]float64, len(setUps))
	filled, _ := a.base.Foretell(job) // a set-up that cannot be is left empty
	for i := range list {
		list[i] = math.NaN()
		if saw := filled.Readings[first+i].Saw; len(saw) > 0 {
			list[i] = saw[0].X.Inside()
		}
	}
	return list
}

// setUpOtherwise lists the set-ups that may have been read in the place of the
// one written down: with another piece of the kit, or without one that need not
// be there.
func (a *account) setUpOtherwise() []slip {
	reading := a.r.Job.Reading(a.source.ID)
	if gauge.Pairs(reading.By) {
		return nil
	}
	setUps := append(a.withOtherPieces(reading), a.withoutPiece(reading)...)
	if len(setUps) == 0 {
		return nil
	}
	changed := make([]trade.Reading, len(setUps))
	for i, s := range setUps {
		changed[i] = s.Reading
	}
	var list []slip
	for i, shown := range a.wouldShow(changed) {
		if math.IsNaN(shown) || !a.within(a.predicted-shown) {
			continue
		}
		right := a.without(shown - a.predicted)
		undone := setUps[i].standIn
		if len(a.values) < len(kept(reading)) {
			undone = a.rewritten(right)
		}
		part := 1 / float64(len(setUps))
		list = append(list, a.explained(setUps[i].kind, setUps[i].text, part, a.corrections(right), undone))
	}
	return list
}

// setUp is a reading set up otherwise.
type setUp struct {
	trade.Reading
	kind Kind
	text string
}

// standIn puts the set-up in the place of the one in a job.
func (s setUp) standIn(job *trade.Job) {
	reading := job.Reading(s.ID)
	reading.Of, reading.That, reading.Goes, reading.Stops = s.Of, s.That, s.Goes, s.Stops
}

// withOtherPieces lists a reading with each of its pieces exchanged for each
// like one of the kit: a piece that stands in two roles in either and in both.
func (a *account) withOtherPieces(reading *trade.Reading) []setUp {
	var list []setUp
	for _, id := range a.piecesIn(reading) {
		roles := rolesOf(reading, id)
		for _, other := range likePieces(a.r.Job, id) {
			all := setUp{*reading, OtherPiece, other + " in the place of " + id}
			all.That = inPlace(a.r.Job, reading.That, id, other)
			all.Of = exchanged(reading.Of, other, roles...)
			list = append(list, all)
			for _, i := range roles {
				if one := all; len(roles) > 1 {
					one.Of = exchanged(reading.Of, other, i)
					one.text += " as " + reading.Of[i].Role
					list = append(list, one)
				}
			}
		}
	}
	return list
}

// rolesOf returns where a piece stands among a reading's roles.
func rolesOf(reading *trade.Reading, piece string) []int {
	var list []int
	for i, arg := range reading.Of {
		if arg.ID == piece {
			list = append(list, i)
		}
	}
	return list
}

func exchanged(args []trade.Arg, other string, at ...int) []trade.Arg {
	args = slices.Clone(args)
	for _, i := range at {
		args[i].ID = other
	}
	return args
}

// withoutPiece lists a reading with each gauge piece left out that it can do
// without.
func (a *account) withoutPiece(reading *trade.Reading) []setUp {
	method, _ := gauge.Find(reading.By)
	var list []setUp
	for i, arg := range reading.Of {
		if role := method.Role(arg.Role); role >= 0 && method.Roles[role].Optional && method.Roles[role].Piece {
			changed := *reading
			changed.Of = slices.Delete(slices.Clone(reading.Of), i, i+1)
			list = append(list, setUp{changed, PieceForgotten, arg.Role + " left out"})
		}
	}
	return list
}

// likePieces returns the other pieces of the kit that may be mistaken for one.
func likePieces(job *trade.Job, id string) []string {
	kind := gauge.PieceOf(job.Piece(id).Kind)
	var list []string
	for _, p := range job.Pieces {
		alike := gauge.PieceOf(p.Kind).MistakenFor(kind)
		if p.ID != id && alike && !p.Size.Equal(job.Piece(id).Size) {
			list = append(list, p.ID)
		}
	}
	return list
}

// mislaidPiece lists the other pieces of the kit that may have been used all
// along for a piece whose size is suspect. In a single reading it is the
// reading that is to blame, but for touches, of which each is wrong by itself.
func (a *account) mislaidPiece() []slip {
	if a.source.Kind != adjust.FromPiece || a.timesUsed(a.source.ID) < 2 {
		return nil
	}
	others := likePieces(a.r.Job, a.source.ID)
	var list []slip
	for _, other := range others {
		size := a.r.Job.Piece(other).Size
		if a.within(size.Inside() - a.said) {
			list = append(list, a.explained(OtherPiece, other+" in the place of "+a.source.ID+" all along", 1/float64(len(others)),
				a.restated(size.Inside()), func(job *trade.Job) { job.Piece(a.source.ID).Size = size }))
		}
	}
	return list
}

// timesUsed counts the readings and touches in which a piece was used.
func (a *account) timesUsed(piece string) int {
	n := 0
	for i := range a.r.Job.Readings {
		switch reading := &a.r.Job.Readings[i]; {
		case !uses(reading, piece):
		case gauge.Pairs(reading.By):
			n += len(kept(reading))
		default:
			n++
		}
	}
	return n
}

// otherGauges lists the gauges of the kit that may have been tried in the place
// of those a go / no-go reading names.
func (a *account) otherGauges() []slip {
	reading := a.r.Job.Reading(a.source.ID)
	var list []slip
	for _, id := range a.piecesIn(reading) {
		others := likePieces(a.r.Job, id)
		for _, other := range others {
			changed := setUp{Reading: *reading}
			if reading.Goes.ID == id {
				changed.Goes.ID = other
			} else {
				changed.Stops.ID = other
			}
			goes, stops := a.boundOf(changed.Goes), a.boundOf(changed.Stops)
			middle := (goes + stops) / 2
			if sameWay := (stops - goes) * (a.boundOf(reading.Stops) - a.boundOf(reading.Goes)); sameWay <= 0 || !a.within(middle-a.said) {
				continue
			}
			corrected := []Correction{{Source: a.source, Dimension: unit.Length, WouldBe: [2]float64{middle}}}
			list = append(list, a.explained(OtherPiece, other+" in the place of "+id, 1/float64(len(others)), corrected,
				changed.standIn))
		}
	}
	return list
}

func (a *account) boundOf(b trade.Bound) float64 {
	if b.ID == "" {
		return b.Value.Inside()
	}
	return a.r.Job.Piece(b.ID).Size.Inside()
}
