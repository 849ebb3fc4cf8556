package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Methods lists gauging methods, a line each, by family.
func Methods(w io.Writer, methods []*gauge.Method, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		family := ""
		for _, m := range methods {
			if m.Family != family {
				family = m.Family
				p.heading(family)
			}
			p.line("  %-22s %s", m.ID, m.When)
		}
	})
}

// Method explains one gauging method: when to use it, its roles, its formula
// with a worked number, its traps and where it comes from.
func Method(w io.Writer, m *gauge.Method, style Style) error {
	p := &printer{w: w, units: unit.Millimetre, style: style}
	return p.report(func() {
		p.line("%s  (%s)", p.paint(bold, m.ID), m.Family)
		p.paragraph("", m.When)
		p.roles(m)
		if m.Formula != "" {
			p.line("\nreading\n  %s", m.Formula)
			p.example(m)
		}
		if len(m.Traps) > 0 {
			p.line("\ntraps")
			for _, trap := range m.Traps {
				p.paragraph("- ", trap)
			}
		}
		p.line("\nsource")
		p.paragraph("", m.Source)
	})
}

// textWidth is how wide a paragraph is set.
const textWidth = 96

// paragraph writes text in lines of at most textWidth, the first after a mark.
func (p *printer) paragraph(mark, text string) {
	if p.pages != nil {
		p.pages.paragraph(mark, text)
		return
	}
	line := "  " + mark
	indent := strings.Repeat(" ", len(line))
	for i, word := range strings.Fields(text) {
		if i > 0 && width(line)+1+width(word) > textWidth {
			p.line("%s", line)
			line = indent + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	p.line("%s", line)
}

func (p *printer) roles(m *gauge.Method) {
	if len(m.Roles) == 0 {
		return
	}
	rows := [][]string{{"role", "letter", "what stands in it"}}
	for _, role := range m.Roles {
		rows = append(rows, []string{role.Name, role.Symbol, roleText(role)})
	}
	p.line("")
	p.table(rows)
	if m.HolesFor != "" {
		p.line("")
		p.paragraph("", fmt.Sprintf("Two holes of a plan, `from` and `to`, may stand in the place of `%s`.", m.HolesFor))
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

// example works the method's example through.
func (p *printer) example(m *gauge.Method) {
	if m.Model == nil {
		return
	}
	var given []string
	for i, role := range m.Roles {
		if !math.IsNaN(m.Example[i]) {
			given = append(given, fmt.Sprintf("%s = %s", role.Symbol, p.amount(m.Example[i], role.Kind.Dimension())))
		}
	}
	p.line("\nfor example")
	p.paragraph("", "with "+strings.Join(given, ", "))
	numbers := m.WithNumbers(func(role int) string { return p.bare(m.Example[role], m.Roles[role].Kind.Dimension()) })
	p.line("  %s", numbers)
	p.line("    = %s", p.fine(reading(m, m.Example), m.Reads))
}
