package jobfile

import (
	"slices"
	"strconv"
	"strings"

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
	for _, p := range n.pairs {
		if role, known := roleUnder(x.method, p.key.text); known {
			of.holds(p.key.text)
			x.Of = append(x.Of, r.argument(x, role, p, of.about(p.key.text)))
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
	hole := func(key string) string { return strings.TrimPrefix(of.at(key).text, partPrefix) }
	from, there := r.owners[hole(fromHole)]
	to, too := r.owners[hole(toHole)]
	switch {
	case !there || !too || from.thing != aHole || to.thing != aHole:
	case of.at(fromHole).text == of.at(toHole).text:
		r.fault(of.at(toHole), "%s: from and to are the same hole", of.what)
	case from.index != to.index:
		r.fault(of.at(toHole), "%s: %s and %s are not holes of one plan", of.what, quote(of.at(fromHole).text), quote(of.at(toHole).text))
	}
}

// argument reads what stands in one role: an id or a plain value.
func (r readingReader) argument(x *reading, role gauge.Role, p pair, about string) trade.Arg {
	arg := trade.Arg{Role: role.Name, Pos: p.value.pos}
	switch {
	case p.value.shape == scalar && strings.HasPrefix(p.value.text, partPrefix):
		arg.ID = p.value.text
		r.checkMade(x, role, p.value, about)
	case p.value.shape == scalar && idPattern.MatchString(p.value.text):
		arg.ID = p.value.text
		r.checkArgument(role, p.value, about)
	case role.Kind == gauge.HoleOfPlan || role.Kind == gauge.PlaceTouched:
		r.fault(p.value, "%s: found %s where an id should be", about, p.value.found())
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		arg.Value = r.wholeNumber(role.Kind, p.value, about)
	default:
		arg.Value = r.quantity(p.value, about, r.roleReader(role.Kind), roleSign(role))
	}
	return arg
}

// checkArgument faults an id that cannot stand in a role.
func (r readingReader) checkArgument(role gauge.Role, n node, about string) {
	switch role.Kind {
	case gauge.HoleOfPlan:
		r.owner(n, about, aHole)
	case gauge.PlaceTouched:
		r.owner(n, about, aPlace)
	case gauge.Count, gauge.Side:
		r.fault(n, "%s: found %s where a whole number should be", about, n.found())
	default:
		o, ok := r.owner(n, about, aSize, aPiece)
		if !ok {
			return
		}
		if d, known := r.dimensionOf(o); known && d != role.Kind.Dimension() {
			r.fault(n, "%s: %s is %s where %s should be", about, quote(n.text), dimensionNames[d], dimensionNames[role.Kind.Dimension()])
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
func (r readingReader) wholeNumber(k gauge.RoleKind, n node, about string) unit.Quantity {
	number, err := strconv.ParseInt(n.text, 10, 64)
	switch {
	case n.shape != scalar || err != nil:
		r.fault(n, "%s: found %s where a whole number should be", about, n.found())
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
