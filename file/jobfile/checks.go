package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

var checkKeys = append([]string{"piece", "at-temp", "with-temp", "in-machine", "on"}, readingKeys...)

// What a check is made on.
const (
	onNew = "new"
	onOld = "old"
)

// The temperatures that are believed of a piece or an instrument, °C.
const (
	coldest = -40
	hottest = 400
)

// readChecks reads the readings of the finished part, and those of the old one
// once it was apart.
func (r *reader) readChecks(f fields) {
	for _, n := range f.list("checks") {
		r.readCheck(n)
	}
}

func (r *reader) readCheck(n node) {
	f := r.fields(n, itemName("check", textUnder(n, "id")), checkKeys...)
	f.need("id", "by")
	x := reading{fields: f, scope: asMade, check: true}
	c := trade.Check{Old: f.word("on", []string{onNew, onOld}) == onOld}
	if c.Old {
		x.scope = ofTheJob
		f.refuse("it is of the new part", "piece", "in-machine", "at-temp", "with-temp")
	}
	r.readWhole(&x)
	c.Reading = x.Reading
	r.readState(f, &c)
	if !c.Old {
		r.checkOfThePart(&x)
	}
	r.job.Checks = append(r.job.Checks, c)
}

// readState reads which piece was read, where and how warm.
func (r *reader) readState(f fields, c *trade.Check) {
	most := 1
	if r.job.Part != nil {
		most = r.job.Part.Quantity
	}
	c.Piece = max(1, f.whole("piece", 1, most))
	c.InMachine = f.yes("in-machine")
	c.AtTemp, c.WithTemp = f.temperature("at-temp"), f.temperature("with-temp")
	if !f.has("at-temp") {
		f.refuse(`it stands beside "at-temp"`, "with-temp")
	}
}

// temperature returns the temperature in °C under the key, not given if there
// is none.
func (f fields) temperature(key string) unit.Quantity {
	q := f.quantity(key, parseTemperature, anySign)
	if q.Given() && (q.Inside() < coldest || q.Inside() > hottest) {
		f.r.fault(f.at(key), "%s is %s; a temperature is from %d to %d °C", f.about(key), quote(f.at(key).text), coldest, hottest)
		return unit.Quantity{}
	}
	return q
}

// parseTemperature reads a plain number with or without its unit, °C.
func parseTemperature(text string) (unit.Quantity, error) {
	number, _ := strings.CutSuffix(text, "C")
	number, _ = strings.CutSuffix(number, "°")
	q, err := unit.ParseNumber(strings.TrimRight(number, " "))
	if err != nil {
		return q, &unit.SyntaxError{Text: text, Column: 1, Want: "a temperature is written 23 C"}
	}
	return q, nil
}

// checkOfThePart faults a check of the new part that names nothing of it, and
// one of what only the old part has.
func (r *reader) checkOfThePart(x *reading) {
	switch {
	case r.job.Part == nil:
		r.faults.add(x.pos, `%s is of the part, but there is none; describe it under part:, or write on: old if it is of the old one`, x.what)
		return
	case x.method == nil || !x.known || x.That == "" && len(x.Of) == 0:
		return // a fault of its own
	}
	ofOld := func(role gauge.Role) bool { return role.Kind == gauge.PlaceTouched }
	atHoles := func(arg trade.Arg) bool {
		return (arg.Role == fromHole || arg.Role == toHole) && !strings.HasPrefix(arg.ID, partPrefix)
	}
	switch {
	case slices.ContainsFunc(x.method.Roles, ofOld) || slices.ContainsFunc(x.Of, atHoles):
		r.fault(x.at("of"), "%s: plans and places are those of the old part; a hole of a plan that the part has too is written part.ID, as is a size", x.what)
	case !x.namesMade():
		r.faults.add(x.pos, "%s names no size of the part, part.ID; write on: old if it is of the old one", x.what)
	}
}

// namesMade reports whether a reading names a size of the part.
func (x *reading) namesMade() bool {
	return strings.Contains(x.That, partPrefix) ||
		slices.ContainsFunc(x.Of, func(arg trade.Arg) bool { return strings.HasPrefix(arg.ID, partPrefix) })
}

// speaksOfPart reports whether a formula names a size of the part.
func speaksOfPart(e *expr.Expr) bool {
	return slices.ContainsFunc(e.Names(), func(name string) bool { return strings.HasPrefix(name, partPrefix) })
}

// checkMade faults a size of the part that cannot stand in a role.
func (r *reader) checkMade(x *reading, role gauge.Role, n node, about string) {
	if x.scope == ofTheJob {
		r.fault(n, "%s: %s is a size of the new part; readings of the old one name sizes of the job", about, quote(n.text))
		return
	}
	if role.Kind == gauge.HoleOfPlan {
		r.checkDrilled(n, about)
		return
	}
	i, there := r.madeNamed(strings.TrimPrefix(n.text, partPrefix), x.scope)
	if !there {
		r.unknown(n, about, string(aPartSize), r.madeNames())
		return
	}
	switch d, sure := r.dimensionMade(i); {
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		r.fault(n, "%s: found %s where a whole number should be", about, n.found())
	case role.Kind == gauge.PlaceTouched:
		r.fault(n, "%s: found %s where a place should be", about, n.found())
	case sure && d != role.Kind.Dimension():
		r.fault(n, "%s: %s is %s where %s should be", about, quote(n.text), dimensionNames[d], dimensionNames[role.Kind.Dimension()])
	}
}

// checkDrilled faults what is no hole that the part takes over from a plan.
func (r *reader) checkDrilled(n node, about string) {
	var names []string
	for _, hole := range r.job.Drilled() {
		names = append(names, partPrefix+hole.ID)
	}
	switch {
	case slices.Contains(names, n.text):
	case len(names) == 0:
		r.fault(n, "%s: the part has no hole of a plan; make the distance a size of the part", about)
	default:
		r.unknown(n, about, "hole of the part", names)
	}
}
