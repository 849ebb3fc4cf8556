package gauge

import "codeberg.org/oddleg/oddleg/job/trade"

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
	Name  string
	Look  Look
	From  Set
	Fills bool // it is made to fill a hole
}

var pieces = []*Piece{
	{Kind: trade.Pin, Name: "pin", Look: Cylinder, From: PinSet},
	{Kind: trade.Ball, Name: "ball", Look: Sphere, From: BallSet},
	{Kind: trade.Roller, Name: "roller", Look: Cylinder, From: PinSet},
	{Kind: trade.Wire, Name: "wire", Look: Cylinder, From: PinSet},
	{Kind: trade.Plug, Name: "plug", Look: Cylinder, Fills: true},
	{Kind: trade.Block, Name: "block", Look: Flat},
	{Kind: trade.Bar, Name: "bar", Look: Flat},
	{Kind: trade.Rod, Name: "rod", Look: Flat},
	{Kind: trade.Stylus, Name: "stylus", Look: Tip},
	{Kind: trade.OtherPiece, Name: "other piece", Look: AnyLook},
}

// PieceKinds lists every kind of gauge piece, any other last.
func PieceKinds() []trade.PieceKind {
	var list []trade.PieceKind
	for _, p := range current.Load().pieces {
		list = append(list, p.Kind)
	}
	return list
}

// PieceOf returns the entry of a kind of gauge piece.
func PieceOf(kind trade.PieceKind) *Piece {
	for _, p := range current.Load().pieces {
		if p.Kind == kind {
			return p
		}
	}
	return &Piece{Kind: kind, Name: string(kind), Look: AnyLook}
}

// Round reports whether the size of such a piece may be a diameter.
func (p *Piece) Round() bool { return p.Look != Flat }

// MistakenFor reports whether one piece may be taken for the other.
func (p *Piece) MistakenFor(other *Piece) bool { return p.Look == other.Look }
