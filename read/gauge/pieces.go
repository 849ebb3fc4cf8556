package gauge

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Look is what a gauge piece looks like.
type Look uint8

// The looks.
const (
	Cylinder Look = iota
	Sphere
	Tip // of a stylus
	Flat
	AnyLook
)

// Set is the standard set of the trade from which a piece may be borrowed.
type Set uint8

// The sets.
const (
	NoSet Set = iota
	PinSet
	BallSet
)

// Piece is the entry of one kind of gauge piece.
type Piece struct {
	Kind  trade.PieceKind
	Look  Look
	From  Set
	Fills bool // it is made to fill a hole
}

var pieces = []Piece{
	{trade.Pin, Cylinder, PinSet, false},
	{trade.Ball, Sphere, BallSet, false},
	{trade.Roller, Cylinder, PinSet, false},
	{trade.Wire, Cylinder, PinSet, false},
	{trade.Plug, Cylinder, NoSet, true},
	{trade.Block, Flat, NoSet, false},
	{trade.Bar, Flat, NoSet, false},
	{trade.Rod, Flat, NoSet, false},
	{trade.Stylus, Tip, NoSet, false},
	{trade.OtherPiece, AnyLook, NoSet, false},
}

// PieceOf returns the entry of a kind of gauge piece.
func PieceOf(kind trade.PieceKind) Piece {
	i := slices.IndexFunc(pieces, func(p Piece) bool { return p.Kind == kind })
	if i < 0 {
		return Piece{Kind: kind, Look: AnyLook}
	}
	return pieces[i]
}

// Round reports whether the size of such a piece may be a diameter.
func (p Piece) Round() bool { return p.Look != Flat }

// MistakenFor reports whether one piece may be taken for the other.
func (p Piece) MistakenFor(other Piece) bool { return p.Look == other.Look }
