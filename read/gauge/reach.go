package gauge

// Reach is what somebody at the machine tries to get at, and the methods that
// get there, the likeliest first.
type Reach struct {
	ID      string
	Title   string // "An undercut wall"
	Say     string // one plain sentence: when it is this
	Methods []*Method
}

// reaches are the questions in the order in which they are asked. A method may
// answer several; the first of each is the one that shows it best.
var reaches = []struct {
	id, title, say string
	methods        []string
}{
	{"plain", "Plain outside, inside or depth", "Jaws, a rod or a blade get there.", []string{"outside", "inside", "depth", "wall-thickness"}},
	{"wall", "An undercut wall", "A round wall behind a lip or under a flange, where jaws do not go.", []string{
		"over-two-pins", "over-one-pin", "between-two-balls", "ball-near", "ball-far", "bridging-pin-near", "bridging-pin-far",
	}},
	{"bore", "A bore", "A round hole, blind, deep or with a sharp mouth.", []string{
		"two-balls-stacked", "inside", "ball-on-mouth", "rocking-rod", "wall-thickness",
	}},
	{"taper", "A taper or an angle", "A cone, a socket, a countersink, or two flat faces.", []string{
		"taper-over-rollers", "taper-ball-depth", "countersink-ball", "sine-bar", "protractor",
	}},
	{"arc", "An arc", "Part of a round, of which the rest is missing or out of reach.", []string{
		"three-rollers", "chord-height", "ball-feet-height", "rollers-on-flat", TouchMethod,
	}},
	{"thread", "A thread", "A screw, a nut or a tapped hole.", []string{
		"three-wires", "over-crests", "root", "pitches", "thread-bore", "thread-between-balls", "thread-ball-tips",
	}},
	{"centres", "Centres of holes", "How far holes stand from each other, from an edge, or on a circle.", []string{
		"over-plugs", "between-plugs", "edge-to-plug-far", "edge-to-plug-near", "bolt-circle-chord", TouchMethod,
	}},
	{"dovetail", "A dovetail or a vee", "Sloping flanks with corners that cannot be touched.", []string{
		"dovetail-over-rollers", "dovetail-between-rollers", "vee-roller",
	}},
	{"slot", "A slot, key, flat or hexagon", "Flat faces in or on the work.", []string{
		"keyway-floor", "keyway-floor-edge", "inside", "depth", "flat-on-round", "hex-corners", "outside",
	}},
	{"gear", "A gear", "A spur wheel or a rack.", []string{"gear-span", "gear-tips", "gear-tip-to-bore", "gear-over-pins", "pitches"}},
	{"running", "Run-out or lost motion", "What a dial shows while something turns or a screw is reversed.", []string{"runout", "lost-motion"}},
	{"other", "Something else", "A set-up of your own, written as a formula over sizes and gauge pieces.", []string{"formula"}},
}

// Reaches lists what may be reached for, each with its methods. They are shared
// and must not be changed.
func Reaches() []Reach {
	list := make([]Reach, len(reaches))
	for i, r := range reaches {
		list[i] = Reach{ID: r.id, Title: r.title, Say: r.say}
		for _, id := range r.methods {
			list[i].Methods = append(list[i].Methods, byID[id])
		}
	}
	return list
}
