package jobfile

import (
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// mostCounted is the largest number in a role that counts something.
const mostCounted = 100_000

// The keys that may stand in the place of a role: two holes for a distance, a
// line for a circle that is touched.
const (
	fromHole = "from"
	toHole   = "to"
	line     = "line"
)

// readRoles reads what stands in the roles of the method.
func (r readingReader) readRoles(x *reading) {
	if !x.has("of") {
		return
	}
	n := x.at("of")
	of := x.item("of", n, "the roles of "+x.what)
	if of.absent() {
		return
	}
	for _, p := range n.Pairs {
		if role, known := roleUnder(x.method, p.Key.Text); known {
			of.holds(p.Key.Text)
			x.Of = append(x.Of, r.argument(x, role, p, of.about(p.Key.Text)))
		}
	}
	if of.hasAny([]string{keys.FromHole, keys.ToHole}) {
		r.checkHoles(of)
	}
}

// roleUnder returns the role that a key fills or helps to fill. The argument
// under `line` is kept in the role of the circle.
func roleUnder(m *gauge.Method, key string) (gauge.Role, bool) {
	if m.HolesFor != "" && (key == fromHole || key == toHole) {
		return gauge.Role{Name: key, Kind: gauge.HoleOfPlan}, true
	}
	i := slices.IndexFunc(m.Roles, func(role gauge.Role) bool {
		return role.Name == key || role.Kind == gauge.PlaceTouched && key == line
	})
	if i < 0 {
		return gauge.Role{}, false
	}
	return m.Roles[i], true
}

// checkHoles faults a distance that is not between two holes of one plan.
func (r readingReader) checkHoles(of fields) {
	hole := func(key string) string { return strings.TrimPrefix(of.at(key).Text, partPrefix) }
	from, there := r.owners[hole(fromHole)]
	to, too := r.owners[hole(toHole)]
	switch {
	case !there || !too || from.thing != aHole || to.thing != aHole:
	case of.at(fromHole).Text == of.at(toHole).Text:
		r.fault(of.at(toHole), "%s: from and to are the same hole", of.what)
	case from.index != to.index:
		r.fault(of.at(toHole), "%s: %s and %s are not holes of one plan", of.what, yamltree.Quote(of.at(fromHole).Text), yamltree.Quote(of.at(toHole).Text))
	}
}

// argument reads what stands in one role: an id or a plain value.
func (r readingReader) argument(x *reading, role gauge.Role, p yamltree.Pair, about string) trade.Arg {
	arg := trade.Arg{Role: role.Name, Pos: p.Value.Pos}
	switch {
	case p.Value.Shape == yamltree.Scalar && strings.HasPrefix(p.Value.Text, partPrefix):
		arg.ID = p.Value.Text
		r.checkMade(x, role, p.Value, about)
	case p.Value.Shape == yamltree.Scalar && keys.IsID(p.Value.Text):
		arg.ID = p.Value.Text
		r.checkArgument(role, p.Value, about)
	case role.Kind == gauge.HoleOfPlan || role.Kind == gauge.PlaceTouched:
		r.fault(p.Value, "%s: found %s where an id should be", about, p.Value.Found())
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		arg.Value = r.wholeNumber(role.Kind, p.Value, about)
	default:
		arg.Value = r.quantity(p.Value, about, r.roleReader(role.Kind), roleSign(role))
	}
	return arg
}

// checkArgument faults an id that cannot stand in a role.
func (r readingReader) checkArgument(role gauge.Role, n yamltree.Node, about string) {
	switch role.Kind {
	case gauge.HoleOfPlan:
		r.owner(n, about, aHole)
	case gauge.PlaceTouched:
		r.owner(n, about, aPlace)
	case gauge.Count, gauge.Side:
		r.fault(n, "%s: found %s where a whole number should be", about, n.Found())
	default:
		o, ok := r.owner(n, about, aSize, aPiece)
		if !ok {
			return
		}
		if d, known := r.dimensionOf(o); known && d != role.Kind.Dimension() {
			r.fault(n, "%s: %s is %s where %s should be", about, yamltree.Quote(n.Text), dimensionNames[d], dimensionNames[role.Kind.Dimension()])
		}
	}
}

var dimensionNames = map[unit.Dimension]string{unit.Length: "a length", unit.Angle: "an angle", unit.Number: "a plain number"}

// roleReader returns the reader of plain values in a role.
func (r readingReader) roleReader(k gauge.RoleKind) quantityReader {
	switch k {
	case gauge.PitchLength:
		return r.pitch
	case gauge.IncludedAngle:
		return includedAngle
	}
	return r.measure(k.Dimension())
}

// roleSign returns what sign a plain value in a role may have: where leaving
// the role out means 0, so does 0.
func roleSign(role gauge.Role) limit {
	switch {
	case role.Signed:
		return anySign
	case role.Optional && role.Default == 0:
		return notNegative
	}
	return positive
}

// wholeNumber reads a number that counts something, or the side 1 or -1.
func (r readingReader) wholeNumber(k gauge.RoleKind, n yamltree.Node, about string) unit.Quantity {
	number, err := strconv.ParseInt(n.Text, 10, 64)
	switch {
	case n.Shape != yamltree.Scalar || err != nil:
		r.fault(n, "%s: found %s where a whole number should be", about, n.Found())
	case k == gauge.Side && number != 1 && number != -1:
		r.fault(n, "%s is %d; a side is 1 or -1", about, number)
	case k == gauge.Count && (number < 1 || number > mostCounted):
		r.fault(n, "%s is %d; it is counted from 1 to %d", about, number, mostCounted)
	default:
		q, _ := unit.New(number, 1, unit.One)
		return q
	}
	return unit.Quantity{}
}
