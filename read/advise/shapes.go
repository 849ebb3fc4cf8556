package advise

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// shape is a method together with the sizes that it meets. Which gauge pieces
// stand in its open roles is not settled yet.
type shape struct {
	method *gauge.Method
	of     map[string]trade.Arg   // by role, `from` and `to` among them
	stood  map[string][]trade.Arg // by open role, what has stood there
	feel   *trade.Reading         // the reading whose feel it shares, nil for none
}

// openTo says which pieces may stand in a role that a piece can be chosen for,
// the one that is named after it first.
var openTo = map[string][]trade.PieceKind{
	"pin":    {trade.Pin, trade.Roller},
	"ball":   {trade.Ball},
	"lower":  {trade.Ball},
	"upper":  {trade.Ball},
	"roller": {trade.Roller, trade.Pin},
	"wire":   {trade.Wire, trade.Pin},
	"block":  {trade.Block},
	"rod":    {trade.Rod},
	"bar":    {trade.Bar},
}

// builtIn are methods whose pieces belong to the gauge, or to each other, and
// are not chosen one by one.
var builtIn = []string{"ball-feet-height", "thread-ball-tips", "bridging-pin-near", "bridging-pin-far"}

// open returns the kinds of piece that may be chosen for a role, nil where
// what stands in it is settled by the job.
func open(m *gauge.Method, role *gauge.Role) []trade.PieceKind {
	if !role.Piece || slices.Contains(builtIn, m.ID) {
		return nil
	}
	return openTo[role.Name]
}

// kin says which methods meet the same features of the work under the same
// names.
var kin = map[string][]string{
	"over-one-pin":         {"over-two-pins"},
	"ball-near":            {"between-two-balls"},
	"ball-far":             {"between-two-balls"},
	"bridging-pin-near":    {"ball-near", "between-two-balls"},
	"bridging-pin-far":     {"ball-far", "between-two-balls"},
	"taper-ball-depth":     {"countersink-ball"},
	"countersink-ball":     {"taper-ball-depth"},
	"thread-ball-tips":     {"thread-between-balls"},
	"thread-between-balls": {"thread-ball-tips"},
	"chord-height":         {"ball-feet-height", "three-rollers"},
	"ball-feet-height":     {"chord-height", "three-rollers"},
	"three-rollers":        {"chord-height", "ball-feet-height"},
	"over-plugs":           {"between-plugs"},
	"between-plugs":        {"over-plugs"},
	"edge-to-plug-far":     {"edge-to-plug-near"},
	"edge-to-plug-near":    {"edge-to-plug-far"},
	"gear-span":            {"gear-over-pins", "gear-tips"},
	"gear-over-pins":       {"gear-span", "gear-tips"},
}

// alone says in which roles of other methods a size may stand by itself that
// stands in this role: the same surface, met more plainly.
var alone = map[string][]string{
	"over-one-pin.across":            {"outside.size"},
	"ball-near.across":               {"outside.size"},
	"bridging-pin-near.across":       {"outside.size"},
	"ball-far.across":                {"inside.size"},
	"bridging-pin-far.across":        {"inside.size"},
	"ball-on-mouth.bore":             {"inside.size"},
	"rocking-rod.bore":               {"inside.size"},
	"inside.size":                    {"rocking-rod.bore", "ball-on-mouth.bore"},
	"wall-thickness.outer":           {"outside.size"},
	"wall-thickness.inner":           {"inside.size"},
	"keyway-floor.shaft":             {"outside.size"},
	"keyway-floor-edge.shaft":        {"outside.size"},
	"keyway-floor-edge.width":        {"inside.size"},
	"flat-on-round.round":            {"outside.size"},
	"rollers-on-flat.round":          {"outside.size"},
	"hex-corners.flats":              {"outside.size"},
	"gear-tip-to-bore.bore":          {"inside.size"},
	"three-wires.major":              {"over-crests.major"},
	"three-wires.pitch":              {"pitches.pitch"},
	"thread-ball-tips.pitch":         {"pitches.pitch"},
	"thread-between-balls.pitch":     {"pitches.pitch"},
	"dovetail-over-rollers.angle":    {"protractor.angle"},
	"dovetail-between-rollers.angle": {"protractor.angle"},
	"vee-roller.angle":               {"protractor.angle"},
	"countersink-ball.half-angle":    {"protractor.angle"},
	"sine-bar.angle":                 {"protractor.angle"},
	"protractor.angle":               {"sine-bar.angle"},
}

// gatherer collects the shapes of a job, each once.
type gatherer struct {
	job    *trade.Job
	shapes []*shape
	byKey  map[string]*shape
}

// shapesOf returns the set-ups that make sense of a job's sizes: its own, those
// of kin methods, sizes met alone, and every two holes of a plan.
func shapesOf(job *trade.Job) []*shape {
	g := &gatherer{job: job, byKey: map[string]*shape{}}
	for i := range job.Readings {
		if s := g.own(&job.Readings[i]); s != nil {
			g.add(s)
			g.kin(s)
			g.alone(s)
		}
	}
	for i := range job.Sizes {
		g.untouched(&job.Sizes[i])
	}
	for i := range job.Plans {
		g.plan(&job.Plans[i])
	}
	return slices.DeleteFunc(slices.Clone(g.shapes), g.saidBetter)
}

// saidBetter reports whether another shape says the same with more of what a
// method's rules ask for, such as the height of a wall.
func (g *gatherer) saidBetter(s *shape) bool {
	return slices.ContainsFunc(g.shapes, func(other *shape) bool {
		if other.method != s.method || len(other.of) <= len(s.of) {
			return false
		}
		for name, arg := range other.of {
			if there, ok := s.of[name]; ok && !same(there, arg) || !ok && !onlyForRules(s.method, name) {
				return false
			}
		}
		return true
	})
}

func onlyForRules(m *gauge.Method, name string) bool {
	role := m.Role(name)
	return role >= 0 && m.Roles[role].Optional && math.IsNaN(m.Roles[role].Default)
}

// own returns the shape of a reading, nil for a formula and for a touch.
func (g *gatherer) own(r *trade.Reading) *shape {
	m, _ := gauge.Find(r.By)
	if m.Model == nil {
		return nil
	}
	s := &shape{method: m, of: map[string]trade.Arg{}, stood: map[string][]trade.Arg{}}
	if r.Feel.Given() {
		s.feel = r
	}
	for _, arg := range r.Of {
		name := arg.Role
		if role := m.Role(arg.Role); role >= 0 {
			name = m.Roles[role].Name
			if open(m, &m.Roles[role]) != nil {
				s.stood[name] = append(s.stood[name], arg)
				continue
			}
		}
		s.of[name] = arg
	}
	s.dropDefaults()
	return s
}

// dropDefaults leaves out what belongs to the instrument, and what is the same
// as if it were left out.
func (s *shape) dropDefaults() {
	delete(s.of, jawFlat)
	for _, role := range s.method.Roles {
		if arg := s.of[role.Name]; role.Optional && arg.Value.Given() && arg.Value.Inside() == role.Default {
			delete(s.of, role.Name)
		}
	}
}

// jawFlat is the role whose piece belongs to the instrument.
const jawFlat = "jaw-flat"

// add adds a shape, and those that differ from it in what is counted.
func (g *gatherer) add(s *shape) {
	for _, counted := range s.counted() {
		if !g.complete(counted) {
			continue
		}
		key := counted.key()
		if there, ok := g.byKey[key]; ok {
			there.remember(counted)
			continue
		}
		g.byKey[key] = counted
		g.shapes = append(g.shapes, counted)
	}
}

// remember takes over what has stood in the open roles of the same shape.
func (s *shape) remember(other *shape) {
	for role, args := range other.stood {
		for _, arg := range args {
			if !slices.ContainsFunc(s.stood[role], func(a trade.Arg) bool { return same(a, arg) }) {
				s.stood[role] = append(s.stood[role], arg)
			}
		}
	}
	if s.feel == nil {
		s.feel = other.feel
	}
}

func same(a, b trade.Arg) bool { return a.ID == b.ID && a.Value.Equal(b.Value) }

// key names a shape.
func (s *shape) key() string {
	var parts []string
	for role, arg := range s.of {
		parts = append(parts, role+"="+arg.ID+arg.Value.String())
	}
	slices.Sort(parts)
	return s.method.ID + " " + strings.Join(parts, " ")
}

// complete fills in what a kin method needs beside the sizes, as another
// reading by it has it, and reports whether nothing is missing then.
func (g *gatherer) complete(s *shape) bool {
	for i := range s.method.Roles {
		role := &s.method.Roles[i]
		_, there := s.of[role.Name]
		_, holes := s.of["from"]
		if there || role.Optional || open(s.method, role) != nil || role.Name == s.method.HolesFor && holes {
			continue
		}
		arg, ok := g.usual(s, role)
		if !ok {
			return false
		}
		s.of[role.Name] = arg
	}
	return true
}

// usual returns what stands in a role of a method in other readings, where that
// belongs to the gauge, or what follows from the work.
func (g *gatherer) usual(s *shape, role *gauge.Role) (trade.Arg, bool) {
	switch {
	case role.Kind == gauge.Side:
		size := g.job.Size(s.of["radius"].ID)
		if size == nil || size.Surface != trade.Outside && size.Surface != trade.Inside {
			return trade.Arg{}, false
		}
		return plainNumber(role.Name, map[trade.Surface]int64{trade.Outside: 1, trade.Inside: -1}[size.Surface]), true
	case !role.Piece:
		return trade.Arg{}, false
	}
	for _, r := range g.job.Readings {
		for _, arg := range r.Of {
			if r.By == s.method.ID && arg.Role == role.Name {
				return arg, true
			}
		}
	}
	return trade.Arg{}, false
}

func plainNumber(role string, n int64) trade.Arg {
	value, err := unit.New(n, 1, unit.One)
	if err != nil {
		panic("advise: a whole number over one is no quantity")
	}
	return trade.Arg{Role: role, Value: value}
}

// kin adds the methods that meet the same features.
func (g *gatherer) kin(s *shape) {
	for _, id := range kin[s.method.ID] {
		m, _ := gauge.Find(id)
		other := &shape{method: m, of: map[string]trade.Arg{}, stood: map[string][]trade.Arg{}, feel: s.feel}
		for name, arg := range s.of {
			if name == "from" || name == "to" || m.Role(name) >= 0 && open(m, &m.Roles[m.Role(name)]) == nil {
				other.of[name] = arg
			}
		}
		for name, args := range s.stood {
			if m.Role(name) >= 0 && open(m, &m.Roles[m.Role(name)]) != nil {
				other.stood[name] = args
			}
		}
		if id != "gear-tips" || math.Mod(s.of["teeth"].Value.Inside(), 2) == 0 {
			g.add(other)
		}
	}
}

// alone adds the plainer methods that meet one of the sizes by itself.
func (g *gatherer) alone(s *shape) {
	for i := range s.method.Roles {
		name := s.method.Roles[i].Name
		size := g.job.Size(s.of[name].ID)
		if size == nil {
			continue
		}
		for _, place := range alone[s.method.ID+"."+name] {
			id, role, _ := strings.Cut(place, ".")
			g.one(size, id, role)
		}
	}
}

// one adds a method that meets one size alone, if its kind allows.
func (g *gatherer) one(size *trade.Size, id, role string) {
	m, _ := gauge.Find(id)
	round := size.Kind == trade.Diameter && size.Surface == trade.Inside
	switch id {
	case "outside", "inside":
		if size.Kind == trade.Radius {
			return // jaws span the whole round
		}
	case "protractor", "sine-bar":
		if size.Kind != trade.Angle {
			return
		}
	case "rocking-rod", "ball-on-mouth":
		if !round {
			return
		}
	}
	s := &shape{method: m, of: map[string]trade.Arg{role: {Role: role, ID: size.ID}}, stood: map[string][]trade.Arg{}}
	if id == "pitches" {
		s.of["n"] = plainNumber("n", overPitches)
	}
	g.add(s)
}

// overPitches is how many pitches a length is read over where no reading says:
// common practice, no source.
const overPitches = 10
