package gauge

import "math"

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
var wallHeight = role("height", "H", AnyLength).or(unknown)
