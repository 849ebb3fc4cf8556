package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// degree in radians.
const degree = math.Pi / 180

// unknown is the Default of a role that only the validity rules use.
var unknown = math.NaN()

func role(name, symbol string, kind RoleKind) Role {
	return Role{Name: name, Symbol: symbol, Kind: kind}
}

// kit returns a role that is usually filled by a gauge piece.
func kit(name, symbol string, kind RoleKind) Role {
	return Role{Name: name, Symbol: symbol, Kind: kind, Piece: true}
}

// or returns the role as an optional one.
func (r Role) or(value float64) Role {
	r.Optional, r.Default = true, value
	return r
}

// signed returns the role as one that takes zero and negative values.
func (r Role) signed() Role {
	r.Signed = true
	return r
}

// wallHeight is the optional height of the wall that a pin or ball touches.
var wallHeight = role("height", "H", AnyLength).sought(trade.Height).room().or(unknown)

// chosen returns the role as one for which a piece of these kinds is chosen
// from the kit, the one it is named after first.
func (r Role) chosen(kinds ...trade.PieceKind) Role {
	r.Pieces, r.Chosen = kinds, true
	return r
}

// fixed returns the role as one whose piece belongs to the gauge or to the
// work, and is not chosen.
func (r Role) fixed(kind trade.PieceKind) Role {
	r.Pieces = []trade.PieceKind{kind}
	return r
}

// counts returns the role as one whose piece lies so often between the
// measuring faces.
func (r Role) counts(times float64) Role {
	r.Counted = times
	return r
}

// holds returns the role as one whose piece only holds the work or the gauge.
func (r Role) holds() Role {
	r.Uncounted = true
	return r
}

// How the rules of a method bound the piece in a role.
const (
	largest = iota // they say how large it may be
	both           // and how small
)

func (r Role) ruled(how int) Role {
	r.RulesLargest, r.RulesSmallest = true, how == both
	return r
}

// ofInstrument returns the role as one whose piece belongs to the jaws.
func (r Role) ofInstrument() Role {
	r.OfInstrument = true
	return r
}

// room returns the role as one that bounds the pieces.
func (r Role) room() Role {
	r.Room = true
	return r
}

// sought returns the role with the kind of size that is sought in it as a rule.
func (r Role) sought(kind trade.SizeKind) Role {
	r.Sought = kind
	return r
}

// takes returns the role as one in which not every size makes sense by itself.
func (r Role) takes(fits func(trade.SizeKind, trade.Surface) bool) Role {
	r.Takes = fits
	return r
}

// sideOf returns the role as one that goes by the surface of the size in
// another.
func (r Role) sideOf(name string) Role {
	r.SideOf = name
	return r
}

// usual returns the role with a number that it mostly has.
func (r Role) usual(number int64) Role {
	r.Usual = number
	return r
}

// unlessRadius keeps jaws from a radius: they span the whole round.
func unlessRadius(kind trade.SizeKind, _ trade.Surface) bool { return kind != trade.Radius }

func ifIncluded(kind trade.SizeKind, _ trade.Surface) bool { return kind == trade.Angle }

func ifBore(kind trade.SizeKind, surface trade.Surface) bool {
	return kind == trade.Diameter && surface == trade.Inside
}
