package mating

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Pair is a kind of shapes that mate, or of an opening that a part must pass.
type Pair = trade.Pair

// Role is what stands in one place of a pair.
type Role = trade.PairRole

// Pairs lists the shapes that mate.
func Pairs() []Pair { return slices.Clone(trade.Pairs) }

// Entries lists the openings that a part may have to pass.
func Entries() []Pair { return slices.Clone(trade.Openings) }

// The words of the pairs and the openings.
const (
	sectorShoe = trade.SectorShoeInGroove
	straight   = trade.StraightShoeInGroove
	keyed      = trade.KeyInKeyway
	bolted     = trade.BoltsInHoles
	dovetailed = trade.DovetailWithGib

	roundHole = trade.RoundHole
	slot      = trade.Slot
	openEnd   = trade.OpenEnd
)

// find returns the pair with this word in a list, nil where there is none.
func find(list []Pair, id trade.PairKind) *Pair {
	i := slices.IndexFunc(list, func(p Pair) bool { return p.ID == id })
	if i < 0 {
		return nil
	}
	return &list[i]
}
