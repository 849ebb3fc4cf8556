package say

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Methods lists gauging methods, a line each, by family.
func Methods(methods []*gauge.Method) *doc.Document {
	p := &page{}
	var t *doc.Table
	family := ""
	for _, m := range methods {
		if m.Family != family {
			family = m.Family
			p.chapter("%s", family)
			t = &doc.Table{Name: "methods", Columns: []doc.Column{{Name: "method"}, {Name: "when"}}}
			p.Add(t)
		}
		t.Add(doc.Cells{"method": doc.Name(doc.Method, m.ID), "when": doc.Plain(m.When)})
	}
	return &p.Document
}

// Method explains one gauging method: when to use it, its roles, its formula with a
// worked number, its traps and where it comes from.
func Method(m *gauge.Method) *doc.Document {
	p := &page{}
	p.Title = doc.Say("%s  (%s)", m.ID, m.Family)
	p.say("%s", m.When)
	p.roles(m)
	if m.Formula != "" {
		p.section("reading")
		p.under(0, "%s", m.Formula)
		p.example(m)
	}
	if len(m.Traps) > 0 {
		p.section("traps")
		for _, trap := range m.Traps {
			p.item("%s", trap)
		}
	}
	p.section("source")
	p.say("%s", m.Source)
	return &p.Document
}

func (p *page) roles(m *gauge.Method) {
	if len(m.Roles) == 0 {
		return
	}
	t := &doc.Table{Name: "roles", Space: doc.Apart, Columns: []doc.Column{
		plain("role"), plain("letter"), {Name: "what", Head: doc.Plain("what stands in it")},
	}}
	for _, role := range m.Roles {
		t.Add(doc.Cells{"role": doc.Plain(role.Name), "letter": doc.Plain(role.Symbol), "what": doc.Plain(RoleText(role))})
	}
	p.Add(t)
	if m.HolesFor != "" {
		p.apart("Two holes of a plan, `from` and `to`, may stand in the place of `%s`.", m.HolesFor)
	}
}

// roleWords says what may stand in a role.
var roleWords = map[gauge.RoleKind]string{
	gauge.AnyLength:     "a length",
	gauge.Diameter:      "a diameter (a radius counts double)",
	gauge.Radius:        "a radius (a diameter counts half)",
	gauge.PitchLength:   "a pitch",
	gauge.IncludedAngle: "an included angle (a half angle counts double)",
	gauge.HalfAngle:     "a half angle (an included angle counts half)",
	gauge.PlainAngle:    "an angle",
	gauge.PlainNumber:   "a number",
	gauge.Count:         "a whole number",
	gauge.Side:          "1 or -1",
	gauge.HoleOfPlan:    "a hole of a plan",
	gauge.PlaceTouched:  "a circle or line of `places`",
}

// RoleText says what stands in a role.
func RoleText(role gauge.Role) string {
	text := roleWords[role.Kind]
	if role.Piece {
		text += ", usually a gauge piece"
	}
	if role.Optional {
		text += "; may be left out"
	}
	return text
}

// example works the method's example through.
func (p *page) example(m *gauge.Method) {
	if m.Model == nil {
		return
	}
	var given []doc.Text
	for i, role := range m.Roles {
		if !math.IsNaN(m.Example[i]) {
			given = append(given, doc.Say("%s = %s", role.Symbol, amount(m.Example[i], role.Kind.Dimension())))
		}
	}
	p.section("for example")
	p.say("with %s", doc.Join(given, ", "))
	p.under(0, "%s", unit.Written(func(v unit.View) string {
		return m.WithNumbers(func(role int) string {
			return unit.Fine{Value: m.Example[role], Dimension: m.Roles[role].Kind.Dimension(), Bare: true}.Shown(v)
		})
	}))
	p.under(1, "= %s", fine(ReadingOf(m, m.Example), m.Reads))
}

// ReadingOf returns what the model of a method says at some values.
func ReadingOf(m *gauge.Method, values []float64) float64 {
	args := make(gauge.Args, len(values))
	for i, v := range values {
		args[i] = grad.Const(v)
	}
	return m.Model(args).X
}
