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

// open returns the kinds of piece that may be chosen for a role, nil where
// what stands in it is settled by the job.
func open(role *gauge.Role) []trade.PieceKind {
	if !role.Chosen {
		return nil
	}
	return role.Pieces
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
			if open(&m.Roles[role]) != nil {
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
	for _, role := range s.method.Roles {
		if role.OfInstrument {
			delete(s.of, role.Name)
		}
		if arg := s.of[role.Name]; role.Optional && arg.Value.Given() && arg.Value.Inside() == role.Default {
			delete(s.of, role.Name)
		}
	}
}

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
		if there || role.Optional || open(role) != nil || role.Name == s.method.HolesFor && holes {
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
		size := g.job.Size(s.of[role.SideOf].ID)
		if size == nil || size.Surface != trade.Outside && size.Surface != trade.Inside {
			return trade.Arg{}, false
		}
		return plainNumber(role.Name, map[trade.Surface]int64{trade.Outside: 1, trade.Inside: -1}[size.Surface]), true
	case role.Usual != 0:
		return plainNumber(role.Name, role.Usual), true
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
	for _, id := range s.method.Kin {
		m, _ := gauge.Find(id)
		other := &shape{method: m, of: map[string]trade.Arg{}, stood: map[string][]trade.Arg{}, feel: s.feel}
		for name, arg := range s.of {
			if name == "from" || name == "to" || m.Role(name) >= 0 && open(&m.Roles[m.Role(name)]) == nil {
				other.of[name] = arg
			}
		}
		for name, args := range s.stood {
			if m.Role(name) >= 0 && open(&m.Roles[m.Role(name)]) != nil {
				other.stood[name] = args
			}
		}
		if m.Suits == nil || m.Suits(other.plainValues()) {
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
		for _, plainer := range s.method.Plainer {
			if plainer.Role == name {
				m, _ := gauge.Find(plainer.By)
				g.one(size, m, plainer.In)
			}
		}
	}
}

// one adds a method that meets one size alone, if its kind allows.
func (g *gatherer) one(size *trade.Size, m *gauge.Method, role string) {
	if takes := m.Roles[m.Role(role)].Takes; takes != nil && !takes(size.Kind, size.Surface) {
		return
	}
	g.add(&shape{method: m, of: map[string]trade.Arg{role: {Role: role, ID: size.ID}}, stood: map[string][]trade.Arg{}})
}

// plainValues returns the plain values in the roles of the method, NaN where
// there is none.
func (s *shape) plainValues() []float64 {
	values := make([]float64, len(s.method.Roles))
	for i, role := range s.method.Roles {
		values[i] = math.NaN()
		if arg := s.of[role.Name]; arg.Value.Given() {
			values[i] = arg.Value.Inside()
		}
	}
	return values
}
