package gauge

import (
	"cmp"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Plainer says that a size which stands in a role may stand by itself in a role
// of another method: the same surface, met more plainly.
type Plainer struct {
	Role string // of the method that has this
	By   string // the plainer method
	In   string // its role
}

// Meeting says which sizes a method meets by themselves.
type Meeting struct {
	Role      string // in which they stand; empty where they stand in no role
	Kinds     []trade.SizeKind
	On        trade.Surface // Inside: on such alone; Outside: on any other; empty: on all
	Rank      int           // the plainest way of reading such a size is 1
	Untouched bool          // worth planning for a size that nothing has met yet
}

// Feature is what of a new part is to be proved.
type Feature uint8

// The features of a new part that are not met as a plain size is.
const (
	PartLength     Feature = iota
	PartArc                // the radius of part of a round
	PartCentres            // the distance of two holes
	ScrewMajor             // the outside of a screw
	ScrewEffective         // the effective diameter of a screw
	NutMinor               // the bore of an inside thread
	NutEffective           // the effective diameter of an inside thread
)

// Proof says which feature of a new part a method reads, and in which role.
type Proof struct {
	Of   Feature
	Role string
	Rank int // what is read first is 1
}

// Counting says what else than what has been counted may be: other holes of a
// circle, a tooth more or less.
type Counting struct {
	Role string
	Try  func(v []float64) []int64 // v in the order of the roles, NaN where nothing plain stands
}

// Way is a method together with the role in which something stands.
type Way struct {
	Method    *Method
	Role      string
	Untouched bool // see Meeting
	rank      int
}

// Ways returns the methods that meet a size of this kind and surface by itself,
// the plainest first.
func Ways(kind trade.SizeKind, surface trade.Surface) []Way {
	var list []Way
	for _, m := range Methods() {
		for _, meets := range m.Meets {
			here := meets.On == "" || (meets.On == trade.Inside) == (surface == trade.Inside)
			if here && slices.Contains(meets.Kinds, kind) {
				list = append(list, Way{m, meets.Role, meets.Untouched, meets.Rank})
			}
		}
	}
	return ranked(list)
}

// Proving returns the methods that read a feature of a new part, in the order
// in which they are thought of.
func Proving(f Feature) []Way {
	var list []Way
	for _, m := range Methods() {
		for _, p := range m.Proves {
			if p.Of == f {
				list = append(list, Way{Method: m, Role: p.Role, rank: p.Rank})
			}
		}
	}
	return ranked(list)
}

func ranked(list []Way) []Way {
	slices.SortStableFunc(list, func(a, b Way) int { return cmp.Compare(a.rank, b.rank) })
	return list
}

// IsProofOf reports whether a method reads a feature of a new part.
func (m *Method) IsProofOf(f Feature) bool {
	return slices.ContainsFunc(m.Proves, func(p Proof) bool { return p.Of == f })
}

// Plugs returns the roles of the plugs in the holes whose distance a method
// reads, in the order of the holes; none for other methods.
func (m *Method) Plugs() []string {
	if m.HolesFor == "" {
		return nil
	}
	var list []string
	for _, role := range m.Roles {
		if role.Piece && !role.Optional {
			list = append(list, role.Name)
		}
	}
	return list
}

// PieceRole returns the first role of a method for which a piece is chosen.
func (m *Method) PieceRole() (Role, bool) {
	i := slices.IndexFunc(m.Roles, func(r Role) bool { return r.Chosen })
	if i < 0 {
		return Role{}, false
	}
	return m.Roles[i], true
}

// The kinds of size that are met alike.
var (
	spanned = []trade.SizeKind{trade.Diameter, trade.Width, trade.Height, trade.Length, trade.Distance}
	offsets = []trade.SizeKind{trade.Offset}
	round   = []trade.SizeKind{trade.Diameter}
	angular = []trade.SizeKind{trade.Angle, trade.HalfAngle}
)
