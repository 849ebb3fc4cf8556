package gauge

import (
	"cmp"
	"slices"
)

// Aim is what somebody at the machine tries to get at.
type Aim uint8

// The aims, in the order in which one is asked for them.
const (
	Plainly Aim = iota
	UndercutWall
	Bore
	Taper
	Arc
	Thread
	Centres
	Dovetail
	Slot
	Gear
	Running
	Other
)

// Purpose says that a method serves an aim. Of those that serve it the one of
// the lowest rank shows it best.
type Purpose struct {
	Aim  Aim
	Rank int
}

// Reach is what somebody at the machine tries to get at, and the methods that
// get there, the likeliest first.
type Reach struct {
	ID      string
	Title   string // "An undercut wall"
	Say     string // one plain sentence: when it is this
	Methods []*Method
}

// reaches are the questions by their aims.
var reaches = [...]Reach{
	Plainly: {"plain", "Plain outside, inside or depth", "Jaws, a rod or a blade get there.", nil},
	UndercutWall: {"wall", "An undercut wall", "A round wall behind a lip or under a flange, where jaws do " +
		"not go.", nil},
	Bore:   {"bore", "A bore", "A round hole, blind, deep or with a sharp mouth.", nil},
	Taper:  {"taper", "A taper or an angle", "A cone, a socket, a countersink, or two flat faces.", nil},
	Arc:    {"arc", "An arc", "Part of a round, of which the rest is missing or out of reach.", nil},
	Thread: {"thread", "A thread", "A screw, a nut or a tapped hole.", nil},
	Centres: {"centres", "Centres of holes", "How far holes stand from each other, from an edge, or on a " +
		"circle.", nil},
	Dovetail: {"dovetail", "A dovetail or a vee", "Sloping flanks with corners that cannot be touched.", nil},
	Slot:     {"slot", "A slot, key, flat or hexagon", "Flat faces in or on the work.", nil},
	Gear:     {"gear", "A gear", "A spur wheel or a rack.", nil},
	Running: {"running", "Run-out or lost motion", "What a dial shows while something turns or a screw is " +
		"reversed.", nil},
	Other: {"other", "Something else", "A set-up of your own, written as a formula over sizes and gauge " +
		"pieces.", nil},
}

// Reaches lists what may be reached for, each with its methods. They are shared
// and must not be changed.
func Reaches() []Reach {
	list := slices.Clone(reaches[:])
	for aim := range list {
		list[aim].Methods = serving(Aim(aim))
	}
	return list
}

// serving returns the methods that serve an aim, the one that shows it best
// first.
func serving(aim Aim) []*Method {
	ranks := map[*Method]int{}
	var list []*Method
	for _, m := range Methods() {
		for _, p := range m.For {
			if p.Aim == aim {
				ranks[m] = p.Rank
				list = append(list, m)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b *Method) int { return cmp.Compare(ranks[a], ranks[b]) })
	return list
}
