package report

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// setUps says in words how each method is set up and read. A role in braces
// stands for what is in it; after a colon, how many equal pieces it takes.
var setUps = map[string]string{
	"outside":                  "Read {size} outside",
	"inside":                   "Read {size} inside",
	"depth":                    "Read the depth {size}",
	"protractor":               "Read the angle {angle}",
	"wall-thickness":           "Read the wall between {outer} and {inner}",
	"pitches":                  "Read over {n} pitches of {pitch}",
	"runout":                   "Turn the work for the full swing of a dial, twice {offset}",
	"lost-motion":              "Take up the screw both ways for {backlash}",
	"over-two-pins":            "Lay {pin:two} on opposite sides of {wall} and read over them",
	"over-one-pin":             "Lay {pin} against {wall} and read over it to the far side of {across}",
	"ball-near":                "Lay {ball} against {wall} and read from it to the near side of {across}",
	"ball-far":                 "Lay {ball} against {wall} and read from it to the far side of {across}",
	"between-two-balls":        "Lay {ball:two} on opposite sides of {wall} and read between them",
	"bridging-pin-near":        "Bridge {wall} with {pin} ({length} long) and read from it to the near side of {across}",
	"bridging-pin-far":         "Bridge {wall} with {pin} ({length} long) and read from it to the far side of {across}",
	"two-balls-stacked":        "Drop {lower} into {bore}, {upper} on it, and read from the floor to the top of the upper",
	"ball-on-mouth":            "Set {ball} on the mouth of {bore} and read from the face to its top",
	"rocking-rod":              "Rock {rod} in {bore} and read the full swing of its free end",
	"taper-over-rollers":       "Stand the taper of {small-end} on a plate, {roller:two} against it, and read over them",
	"taper-ball-depth":         "Drop {ball} into the taper of {mouth} and read from the face down to its top",
	"countersink-ball":         "Set {ball} in the countersink of {mouth} and read from the face up to its top",
	"sine-bar":                 "Set {angle} on {bar} and read the height of the blocks",
	"dovetail-over-rollers":    "Lay {roller:two} in the corners of {width} and read over them",
	"dovetail-between-rollers": "Lay {roller:two} in the corners of {width} and read between them",
	"vee-roller":               "Lay {roller} in the vee of {width} and read from the top face to its top",
	"three-wires":              "Lay {wire:three} in the thread of {effective} and read over them",
	"thread-ball-tips":         "Set tips ({ball}) in the thread of {effective} and read between them",
	"thread-between-balls":     "Stick {ball:three} in the thread of {effective}, two and one opposite, and read between them",
	"thread-bore":              "Read the bore {minor} of the thread",
	"over-crests":              "Read {major} over the crests",
	"root":                     "Read {minor} at the root",
	"chord-height":             "Read the rise of {radius} over feet {chord} apart",
	"ball-feet-height":         "Read the rise of {radius} over ball feet {feet} apart",
	"three-rollers":            "Lay {roller:three} on {radius}, the outer ones {half-chord} from the middle, and read how far the middle one stands over them",
	"rollers-on-flat":          "Lay {round} on a flat, {roller:two} pushed in on either side, and read over them",
	"over-plugs":               "Read {centres} over the plugs",
	"between-plugs":            "Read {centres} between the plugs",
	"edge-to-plug-far":         "Read {edge} over the edge and the far side of {plug}",
	"edge-to-plug-near":        "Read {edge} from the edge to the near side of {plug}",
	"bolt-circle-chord":        "Set {plug:two} in holes of {circle} that lie {apart} apart and read over them",
	"keyway-floor":             "Read over the keyway's floor ({depth}) and the far side of {shaft}",
	"keyway-floor-edge":        "Read over the keyway's floor ({depth} from its edge) and the far side of {shaft}",
	"flat-on-round":            "Read over the flat {width} and the far side of {round}",
	"hex-corners":              "Read {flats} over the corners",
	"gear-span":                "Read over {spanned} teeth of the wheel of {teeth}",
	"gear-tips":                "Read over the tips of the wheel of {teeth} teeth",
	"gear-tip-to-bore":         "Read from a tip of the wheel of {teeth} teeth to the near side of {bore}",
	"gear-over-pins":           "Lay {pin:two} in opposite spaces of the wheel of {teeth} teeth and read over them",
}

// setUp says in words how a reading is set up.
func setUp(r *trade.Reading, borrowed []trade.Piece) string {
	m, _ := gauge.Find(r.By)
	said := setUps[r.By]
	if r.By == trade.FormulaMethod {
		return "Read " + r.That
	}
	for _, arg := range r.Of {
		for _, number := range []string{"", ":two", ":three"} {
			said = strings.ReplaceAll(said, "{"+arg.Role+number+"}", inRole(m, arg, number, borrowed))
		}
	}
	if block := slices.IndexFunc(r.Of, func(a trade.Arg) bool { return a.Role == "block" }); block >= 0 {
		said = strings.Replace(said, " against it", " on equal blocks ("+inRole(m, r.Of[block], "", borrowed)+") against it", 1)
	}
	return strings.Replace(said, "{centres}", "from "+holes(r), 1)
}

// holes names the two holes of a reading between holes of a plan.
func holes(r *trade.Reading) string {
	ends := map[string]string{}
	for _, arg := range r.Of {
		ends[arg.Role] = arg.ID
	}
	return ends["from"] + " to " + ends["to"]
}

// inRole names what stands in a role: a size or a piece of the kit by its id, a
// borrowed or a plain piece by its size.
func inRole(m *gauge.Method, arg trade.Arg, number string, borrowed []trade.Piece) string {
	count := strings.TrimPrefix(number, ":")
	if i := slices.IndexFunc(borrowed, func(p trade.Piece) bool { return p.ID == arg.ID }); i >= 0 {
		return counted(count, "borrowed "+borrowed[i].Size.String()+" "+string(borrowed[i].Kind))
	}
	if arg.ID != "" {
		if count != "" {
			return count + " of " + arg.ID
		}
		return arg.ID
	}
	role := m.Roles[m.Role(arg.Role)]
	if !role.Piece || role.Kind == gauge.AnyLength {
		return arg.Value.String()
	}
	name, _, _ := strings.Cut(role.Name, "-")
	return counted(count, arg.Value.String()+" "+name)
}

func counted(count, thing string) string {
	if count == "" {
		return "a " + thing
	}
	return count + " " + thing + "s"
}
