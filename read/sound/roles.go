package sound

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// roles checks what stands in the roles of the method.
func (c *check) roles(x *reading) {
	filled := map[string]int{}
	for _, arg := range x.Of {
		filled[arg.Role]++
		role, known := roleNamed(x.method, arg.Role)
		if !known {
			c.unknown(arg.Role, "the roles of "+x.what, "key", arg.Pos, roleNames(x.method))
			continue
		}
		if filled[arg.Role] == 2 {
			c.fault(arg.Pos, "the roles of %s: %q is filled twice", x.what, arg.Role)
		}
		c.argument(x, role, arg)
	}
	holes := filled[keys.FromHole] + filled[keys.ToHole]
	for _, role := range x.method.Roles {
		switch byHoles := role.Name == x.method.HolesFor && holes > 0; {
		case byHoles && filled[role.Name] > 0:
			c.fault(x.Pos, "the roles of %s: %q and %q exclude each other", x.what, role.Name, keys.FromHole)
		case byHoles:
			c.holes(x)
		case !role.Optional && filled[role.Name] == 0:
			c.fault(x.Pos, "the roles of %s: %q is missing", x.what, role.Name)
		}
	}
}

// roleNamed returns the role of a name; two holes may stand for a distance.
func roleNamed(m *gauge.Method, name string) (gauge.Role, bool) {
	if m.HolesFor != "" && (name == keys.FromHole || name == keys.ToHole) {
		return gauge.Role{Name: name, Kind: gauge.HoleOfPlan}, true
	}
	i := slices.IndexFunc(m.Roles, func(role gauge.Role) bool { return role.Name == name })
	if i < 0 {
		return gauge.Role{}, false
	}
	return m.Roles[i], true
}

func roleNames(m *gauge.Method) []string {
	var names []string
	for _, role := range m.Roles {
		names = append(names, role.Name)
	}
	if m.HolesFor != "" {
		names = append(names, keys.FromHole, keys.ToHole)
	}
	return names
}

// holes faults a distance that is not between two holes of one plan.
func (c *check) holes(x *reading) {
	ends := map[string]string{}
	for _, arg := range x.Of {
		ends[arg.Role] = arg.ID
	}
	from, to := ends[keys.FromHole], ends[keys.ToHole]
	a, b := c.owners[strings.TrimPrefix(from, keys.PartPrefix)], c.owners[strings.TrimPrefix(to, keys.PartPrefix)]
	switch {
	case from == "" || to == "":
		c.fault(x.Pos, "the roles of %s: a distance of holes is from one to another; one of them is missing", x.what)
	case a.thing != aHole || b.thing != aHole:
	case from == to:
		c.fault(x.Pos, "the roles of %s: from and to are the same hole", x.what)
	case a.index != b.index:
		c.fault(x.Pos, "the roles of %s: %s and %s are not holes of one plan", x.what, quote(from), quote(to))
	}
}

// argument checks what stands in one role: an id or a plain value.
func (c *check) argument(x *reading, role gauge.Role, arg trade.Arg) {
	about := arg.Role + " in the roles of " + x.what
	switch {
	case arg.ID != "" && arg.Value.Given():
		c.fault(arg.Pos, "%s: the id %s and the value %s exclude each other", about, quote(arg.ID), arg.Value)
	case isOfPart(arg.ID):
		c.argumentMade(x, role, arg, about)
	case arg.ID != "":
		c.argumentOwned(role, arg, about)
	case !arg.Value.Given():
		c.fault(arg.Pos, "%s: nothing stands there", about)
	default:
		c.argumentPlain(role, arg, about)
	}
}

// argumentOwned faults an id that cannot stand in a role.
func (c *check) argumentOwned(role gauge.Role, arg trade.Arg, about string) {
	switch role.Kind {
	case gauge.HoleOfPlan:
		c.owner(arg.ID, about, arg.Pos, aHole)
	case gauge.PlaceTouched:
		c.owner(arg.ID, about, arg.Pos, aPlace)
	case gauge.Count, gauge.Side:
		c.fault(arg.Pos, "%s: found %s where a whole number should be", about, quote(arg.ID))
	default:
		o, ok := c.owner(arg.ID, about, arg.Pos, aSize, aPiece)
		if d, sure := c.dimensionOf(o); ok && sure && d != role.Kind.Dimension() {
			c.fault(arg.Pos, "%s: %s is %s where %s should be", about, quote(arg.ID), dimensionNames[d],
				dimensionNames[role.Kind.Dimension()])
		}
	}
}

// argumentMade faults something of the part that cannot stand in a role.
func (c *check) argumentMade(x *reading, role gauge.Role, arg trade.Arg, about string) {
	switch {
	case x.scope == ofTheJob:
		c.fault(arg.Pos, "%s: %s is a size of the new part; readings of the old one name sizes of the job", about,
			quote(arg.ID))
		return
	case role.Kind == gauge.HoleOfPlan:
		c.drilled(arg, about)
		return
	}
	i, there := c.madeNamed(strings.TrimPrefix(arg.ID, keys.PartPrefix), x.scope)
	if !there {
		c.unknown(arg.ID, about, string(aPartSize), arg.Pos, c.madeNames())
		return
	}
	switch d, sure := c.dimensionMade(i); {
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		c.fault(arg.Pos, "%s: found %s where a whole number should be", about, quote(arg.ID))
	case role.Kind == gauge.PlaceTouched:
		c.fault(arg.Pos, "%s: found %s where a place should be", about, quote(arg.ID))
	case sure && d != role.Kind.Dimension():
		c.fault(arg.Pos, "%s: %s is %s where %s should be", about, quote(arg.ID), dimensionNames[d],
			dimensionNames[role.Kind.Dimension()])
	}
}

// drilled faults what is no hole that the part takes over from a plan.
func (c *check) drilled(arg trade.Arg, about string) {
	var names []string
	for _, hole := range c.job.Drilled() {
		names = append(names, keys.PartPrefix+hole.ID)
	}
	switch {
	case slices.Contains(names, arg.ID):
	case len(names) == 0:
		c.fault(arg.Pos, "%s: the part has no hole of a plan; make the distance a size of the part", about)
	default:
		c.unknown(arg.ID, about, "hole of the part", arg.Pos, names)
	}
}

// argumentPlain faults a value that cannot stand in a role.
func (c *check) argumentPlain(role gauge.Role, arg trade.Arg, about string) {
	q := arg.Value
	switch {
	case role.Kind == gauge.HoleOfPlan || role.Kind == gauge.PlaceTouched:
		c.fault(arg.Pos, "%s: found %s where an id should be", about, q)
	case !c.measures(about, arg.Pos, q, role.Kind.Dimension()):
	case role.Kind == gauge.Count && (!isWhole(q) || q.Inside() < 1 || q.Inside() > keys.MostCounted):
		c.fault(arg.Pos, "%s is %s; it is counted from 1 to %d", about, q, keys.MostCounted)
	case role.Kind == gauge.Side && math.Abs(q.Inside()) != 1:
		c.fault(arg.Pos, "%s is %s; a side is 1 or -1", about, q)
	case role.Kind == gauge.IncludedAngle && q.IsTaper():
		c.fault(arg.Pos, "%s: the taper %s stands for a half angle; write the angle in degrees", about, q)
	case role.Signed || role.Kind == gauge.Side:
	case role.Optional && role.Default == 0:
		if q.Sign() < 0 {
			c.fault(arg.Pos, "%s is %s; it must not be negative", about, q)
		}
	case q.Sign() <= 0:
		c.fault(arg.Pos, "%s is %s; it must be more than 0", about, q)
	}
}

func isWhole(q unit.Quantity) bool { return q.Exact().IsInt() }
