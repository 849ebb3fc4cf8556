package mating

import (
	"slices"

	"oddleg"
)

// Pair is a kind of shapes that mate, or of an opening that a part must pass.
type Pair = oddleg.Pair

// Role is what stands in one place of a pair.
type Role = oddleg.PairRole

// Pairs lists the shapes that mate.
func Pairs() []Pair { return slices.Clone(oddleg.Pairs) }

// Entries lists the openings that a part may have to pass.
func Entries() []Pair { return slices.Clone(oddleg.Openings) }

// The words of the pairs and the openings.
const (
	sectorShoe = oddleg.SectorShoeInGroove
	straight   = oddleg.StraightShoeInGroove
	keyed      = oddleg.KeyInKeyway
	bolted     = oddleg.BoltsInHoles
	dovetailed = oddleg.DovetailWithGib

	roundHole = oddleg.RoundHole
	slot      = oddleg.Slot
	openEnd   = oddleg.OpenEnd
)

// find returns the pair with this word in a list, nil where there is none.
func find(list []Pair, id string) *Pair {
	i := slices.IndexFunc(list, func(p Pair) bool { return p.ID == id })
	if i < 0 {
		return nil
	}
	return &list[i]
}
