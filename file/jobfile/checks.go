package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// What a check is made on.
const (
	onNew = "new"
	onOld = "old"
)

// checkReader reads checks, which are readings that say more.
type checkReader struct{ readingReader }

// readChecks reads the readings of the finished part, and those of the old one
// once it was apart.
func (r checkReader) readChecks(f fields) {
	for _, n := range f.list("checks") {
		r.readCheck(f, n)
	}
}

func (r checkReader) readCheck(file fields, n yamltree.Node) {
	f := file.item("checks", n, itemName("check", textUnder(n, "id")))
	x := reading{fields: f, scope: asMade, check: true}
	c := trade.Check{Old: f.text("on") == onOld}
	if c.Old {
		x.scope = ofTheJob
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
func (r checkReader) readState(f fields, c *trade.Check) {
	c.Piece = max(1, f.whole("piece"))
	most := 1
	if r.job.Part != nil {
		most = r.job.Part.Quantity
	}
	if c.Piece > most {
		r.whole(f.at("piece"), f.about("piece"), 1, most)
	}
	c.InMachine = f.yes("in-machine")
	c.AtTemp, c.WithTemp = f.quantity("at-temp"), f.quantity("with-temp")
}

// checkOfThePart faults a check of the new part that names nothing of it, and
// one of what only the old part has.
func (r checkReader) checkOfThePart(x *reading) {
	switch {
	case r.job.Part == nil:
		r.faults.Add(x.pos, `%s is of the part, but there is none; describe it under part:, or write on: old if it is of the old one`, x.what)
		return
	case x.method == nil || !x.known || !x.That.Given() && len(x.Of) == 0:
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
		r.faults.Add(x.pos, "%s names no size of the part, part.ID; write on: old if it is of the old one", x.what)
	}
}

// namesMade reports whether a reading names a size of the part.
func (x *reading) namesMade() bool {
	return strings.Contains(x.That.Text, partPrefix) ||
		slices.ContainsFunc(x.Of, func(arg trade.Arg) bool { return strings.HasPrefix(arg.ID, partPrefix) })
}

// speaksOfPart reports whether a formula names a size of the part.
func speaksOfPart(e *expr.Expr) bool {
	return slices.ContainsFunc(e.Names(), func(name string) bool { return strings.HasPrefix(name, partPrefix) })
}

// checkMade faults a size of the part that cannot stand in a role.
func (r readingReader) checkMade(x *reading, role gauge.Role, n yamltree.Node, about string) {
	if x.scope == ofTheJob {
		r.fault(n, "%s: %s is a size of the new part; readings of the old one name sizes of the job", about, yamltree.Quote(n.Text))
		return
	}
	if role.Kind == gauge.HoleOfPlan {
		r.checkDrilled(n, about)
		return
	}
	i, there := r.madeNamed(strings.TrimPrefix(n.Text, partPrefix), x.scope)
	if !there {
		r.unknown(n, about, string(aPartSize), r.madeNames())
		return
	}
	switch d, sure := r.dimensionMade(i); {
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		r.fault(n, "%s: found %s where a whole number should be", about, n.Found())
	case role.Kind == gauge.PlaceTouched:
		r.fault(n, "%s: found %s where a place should be", about, n.Found())
	case sure && d != role.Kind.Dimension():
		r.fault(n, "%s: %s is %s where %s should be", about, yamltree.Quote(n.Text), dimensionNames[d], dimensionNames[role.Kind.Dimension()])
	}
}

// checkDrilled faults what is no hole that the part takes over from a plan.
func (r readingReader) checkDrilled(n yamltree.Node, about string) {
	var names []string
	for _, hole := range r.job.Drilled() {
		names = append(names, partPrefix+hole.ID)
	}
	switch {
	case slices.Contains(names, n.Text):
	case len(names) == 0:
		r.fault(n, "%s: the part has no hole of a plan; make the distance a size of the part", about)
	default:
		r.unknown(n, about, "hole of the part", names)
	}
}
