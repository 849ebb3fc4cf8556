package blunder_test

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// planters make one slip each in a reading of a drawing and return false where
// it cannot be made there. They know nothing of how slips are looked for.
var planters = map[blunder.Kind]func(d *draw, r *trade.Reading) bool{
	blunder.ThimbleTurn:       (*draw).turnThimble,
	blunder.BeamDivision:      (*draw).slipOnBeam,
	blunder.FractionDivision:  (*draw).miscountFractions,
	blunder.PieceAdded:        func(d *draw, r *trade.Reading) bool { return d.miscount(r, -1) },
	blunder.PieceDoubled:      func(d *draw, r *trade.Reading) bool { return d.miscount(r, 2) },
	blunder.PieceForgotten:    (*draw).forgetPiece,
	blunder.OtherPiece:        (*draw).takeOtherPiece,
	blunder.RadiusForDiameter: func(d *draw, r *trade.Reading) bool { return d.isRound(r) && d.times(r, 0.5, 1e5) },
	blunder.DiameterForRadius: func(d *draw, r *trade.Reading) bool { return d.isRound(r) && d.times(r, 2, 1e5) },
	blunder.InchForMM: func(d *draw, r *trade.Reading) bool {
		return r.Saw[0].X.Unit() == unit.Millimetre && d.times(r, 1/25.4, 1e4)
	},
	blunder.MMForInch: func(d *draw, r *trade.Reading) bool {
		return r.Saw[0].X.Unit() == unit.Inch && d.times(r, 25.4, 1e2)
	},
	blunder.DigitsSwapped:   (*draw).swapDigits,
	blunder.NotZeroed:       (*draw).leaveUnzeroed,
	blunder.SwappedReadings: (*draw).swapReadings,
	someOther:               (*draw).slipAnyhow,
}

// change writes something else for all the values of a reading.
func (d *draw) change(r *trade.Reading, to func(x float64) float64) bool {
	for i := range r.Saw {
		q := r.Saw[i].X
		x := to(q.Inside())
		if math.IsNaN(x) {
			return false // such a set-up cannot be
		}
		r.Saw[i].X = d.onScale(r, q.Unit(), x)
	}
	return true
}

func (d *draw) either() float64 {
	if d.uniform() < 0.5 {
		return -1
	}
	return 1
}

func (d *draw) scaleIsInch(r *trade.Reading) bool {
	return d.job.Instrument(r.With).Resolution.Unit() == unit.Inch
}

func (d *draw) turnThimble(r *trade.Reading) bool {
	kind := d.job.Instrument(r.With).Kind
	if kind != trade.Micrometer && kind != trade.DepthMicrometer {
		return false
	}
	turn := 0.5
	if d.scaleIsInch(r) {
		turn = 0.025 * 25.4
	}
	if d.uniform() < 0.2 {
		turn *= 2
	}
	turn *= d.either()
	return d.change(r, func(x float64) float64 { return x + turn })
}

func (d *draw) slipOnBeam(r *trade.Reading) bool {
	if !slices.Contains([]trade.InstrumentKind{trade.Caliper, trade.HeightGauge, trade.DepthGauge}, d.job.Instrument(r.With).Kind) {
		return false
	}
	division := 1.0
	if d.scaleIsInch(r) {
		division = []float64{2.54, 0.635}[int(2*d.uniform())]
	}
	division *= d.either()
	return d.change(r, func(x float64) float64 { return x + division })
}

func (d *draw) miscountFractions(r *trade.Reading) bool {
	if d.job.Instrument(r.With).Kind != trade.Rule || !d.scaleIsInch(r) {
		return false
	}
	division := 25.4 / []float64{64, 32}[int(2*d.uniform())] * d.either()
	return d.change(r, func(x float64) float64 { return x + division })
}

// slipAnyhow is off by any amount from a hundredth to 10 mm.
func (d *draw) slipAnyhow(r *trade.Reading) bool {
	if r.Saw[0].X.Dimension() != unit.Length {
		return false
	}
	by := 0.01 * math.Pow(1000, d.uniform()) * d.either()
	return d.change(r, func(x float64) float64 { return x + by })
}

// plain are methods in which a gauge piece counts by its diameter alone.
var plain = []string{
	"over-two-pins", "over-one-pin", "ball-near", "ball-far", "between-two-balls",
	"over-plugs", "between-plugs", "edge-to-plug-far", "edge-to-plug-near", "bolt-circle-chord",
}

// pieceRoles returns the roles of a reading that gauge pieces stand in.
func (d *draw) pieceRoles(r *trade.Reading) []int {
	var list []int
	for i, arg := range r.Of {
		if d.job.Piece(arg.ID) != nil {
			list = append(list, i)
		}
	}
	return list
}

// counted returns what the reading would be if the piece in some roles counted
// times its size.
func (d *draw) counted(r *trade.Reading, times float64, roles ...int) float64 {
	changed := *r
	changed.Of = slices.Clone(r.Of)
	for _, i := range roles {
		changed.Of[i] = trade.Arg{Role: r.Of[i].Role, Value: mm(d.t, times*d.pieces[r.Of[i].ID])}
	}
	return d.truth(changed)
}

// miscount counts one piece times its size wherever it stands.
func (d *draw) miscount(r *trade.Reading, times float64) bool {
	roles := d.pieceRoles(r)
	if !slices.Contains(plain, r.By) || len(roles) == 0 {
		return false
	}
	piece := r.Of[roles[int(d.uniform()*float64(len(roles)))]].ID
	roles = slices.DeleteFunc(roles, func(i int) bool { return r.Of[i].ID != piece })
	by := d.counted(r, times, roles...) - d.truth(*r)
	return d.change(r, func(x float64) float64 { return x + by })
}

// forgetPiece forgets the piece in one role, or one of the two that stand in it.
func (d *draw) forgetPiece(r *trade.Reading) bool {
	roles := d.pieceRoles(r)
	if !slices.Contains(plain, r.By) || len(roles) == 0 {
		return false
	}
	times := 0.0
	if (r.By == "over-two-pins" || r.By == "between-two-balls") && d.uniform() < 0.5 {
		times = 0.5
	}
	by := d.counted(r, times, roles[int(d.uniform()*float64(len(roles)))]) - d.truth(*r)
	return d.change(r, func(x float64) float64 { return x + by })
}

// takeOtherPiece reads with another piece of the same kind in all its roles.
func (d *draw) takeOtherPiece(r *trade.Reading) bool {
	roles := d.pieceRoles(r)
	if len(roles) == 0 {
		return false
	}
	piece := d.job.Piece(r.Of[roles[int(d.uniform()*float64(len(roles)))]].ID)
	var others []string
	for _, p := range d.job.Pieces {
		if p.ID != piece.ID && p.Kind == piece.Kind {
			others = append(others, p.ID)
		}
	}
	if len(others) == 0 {
		return false
	}
	other := others[int(d.uniform()*float64(len(others)))]
	changed := *r
	changed.Of = slices.Clone(r.Of)
	for _, i := range roles {
		if changed.Of[i].ID == piece.ID {
			changed.Of[i].ID = other
		}
	}
	by := d.truth(changed) - d.truth(*r)
	return d.change(r, func(x float64) float64 { return x + by })
}

func (d *draw) isRound(r *trade.Reading) bool {
	method, _ := gauge.Find(r.By)
	return slices.ContainsFunc(r.Of, func(arg trade.Arg) bool {
		size := d.job.Size(arg.ID)
		role := method.Role(arg.Role)
		return size != nil && role >= 0 && !method.Roles[role].Piece && (size.Kind == trade.Diameter || size.Kind == trade.Radius)
	})
}

// times writes a multiple of the values, to as many parts of the unit as one
// would write.
func (d *draw) times(r *trade.Reading, factor, parts float64) bool {
	for i := range r.Saw {
		u := r.Saw[i].X.Unit()
		perUnit := map[unit.Unit]float64{unit.Millimetre: 1, unit.Inch: 25.4}[u]
		q, err := unit.New(int64(math.Round(r.Saw[i].X.Inside()*factor/perUnit*parts)), int64(parts), u)
		if err != nil {
			return false
		}
		r.Saw[i].X = q
	}
	return true
}

// swapDigits swaps two neighbouring digits, the same ones in all values.
func (d *draw) swapDigits(r *trade.Reading) bool {
	resolution := d.job.Instrument(r.With).Resolution
	u := r.Saw[0].X.Unit()
	if u != resolution.Unit() || u != unit.Millimetre && u != unit.Inch || strings.Contains(resolution.String(), "/") {
		return false
	}
	perUnit := map[unit.Unit]float64{unit.Millimetre: 1, unit.Inch: 25.4}[u]
	_, places, _ := strings.Cut(strings.Fields(resolution.String())[0], ".")
	at := d.uniform()
	for i := range r.Saw {
		text := strconv.FormatFloat(r.Saw[i].X.Inside()/perUnit, 'f', len(places), 64)
		digits := strings.Replace(strings.TrimPrefix(text, "-"), ".", "", 1)
		k := int(at * float64(len(digits)-1))
		if digits[k] == digits[k+1] {
			return false
		}
		b := []byte(digits)
		b[k], b[k+1] = b[k+1], b[k]
		n, err := strconv.ParseInt(string(b), 10, 64)
		if err != nil || strings.HasPrefix(text, "-") {
			return false
		}
		if r.Saw[i].X, err = unit.New(n, int64(math.Pow10(len(places))), u); err != nil {
			return false
		}
	}
	return true
}

// leaveUnzeroed shifts all that the reading's instrument read.
func (d *draw) leaveUnzeroed(r *trade.Reading) bool {
	by := (0.05 + 0.45*d.uniform()) * d.either()
	n := 0
	for i := range d.job.Readings {
		other := &d.job.Readings[i]
		if other.With != r.With || gauge.Pairs(other.By) || other.GoNoGo() || other.Saw[0].X.Dimension() != unit.Length {
			continue
		}
		n++
		d.change(other, func(x float64) float64 { return x + by })
	}
	return n > 1
}

// swapReadings enters a reading and another by the same kind of instrument
// under each other's name.
func (d *draw) swapReadings(r *trade.Reading) bool {
	var others []*trade.Reading
	for i := range d.job.Readings {
		o := &d.job.Readings[i]
		if o.ID != r.ID && !gauge.Pairs(o.By) && !o.GoNoGo() && o.Saw[0].X.Dimension() == r.Saw[0].X.Dimension() && len(o.Saw) == len(r.Saw) {
			others = append(others, o)
		}
	}
	if len(others) == 0 {
		return false
	}
	other := others[int(d.uniform()*float64(len(others)))]
	r.Saw, other.Saw = other.Saw, r.Saw
	return true
}
