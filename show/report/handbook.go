package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/say"
)

// SketchWords says what to print in the sketch of a method at these values: the
// letter of a role, m for the reading, and its value.
func SketchWords(m *gauge.Method, values []float64) func(role int) string {
	return func(role int) string {
		if role == gauge.ReadingRole {
			return "m = " + shown(say.ReadingOf(m, values), m.Reads)
		}
		return m.Roles[role].Symbol + " = " + shown(values[role], m.Roles[role].Kind.Dimension())
	}
}

// shown writes a value with the decimals it has, three of a length or an angle
// at most.
func shown(x float64, d unit.Dimension) string {
	end := map[unit.Dimension]string{unit.Angle: "°"}[d]
	if d == unit.Angle {
		x *= 180 / math.Pi
	}
	text, _ := unit.WithUncertainty(math.Round(x*1000)/1000, 0)
	return text + end
}

const handbookStart = `# A handbook of awkward measuring

Every way of taking a reading that the program knows, family by family. Each sketch is to scale: it is drawn from the numbers in it, and
a test holds what it measures against the formula. Lengths are in mm. Walls, bores, shafts and circles are diameters; a half angle is
measured to the axis or centre plane; m is the reading. ` + "`oddleg methods NAME`" + ` says the same of one method, and
` + "`oddleg methods NAME --sketch FILE.svg`" + ` writes its sketch.

This page is written by ` + "`oddleg methods --handbook docs`" + `: change the catalogue, not the page.
`

// Handbook writes the methods as a page of Markdown. Picture returns where the
// sketch of a method is, nothing where it has none.
func Handbook(w io.Writer, methods []*gauge.Method, picture func(*gauge.Method) string) error {
	b := &book{}
	b.line("%s", handbookStart)
	b.contents(methods)
	family := ""
	for _, m := range methods {
		if m.Family != family {
			family = m.Family
			b.line("## %s\n", capitalised(family))
		}
		b.entry(m, picture(m))
	}
	_, err := b.WriteTo(w)
	return err
}

// book is the handbook being written.
type book struct{ bytes.Buffer }

func (b *book) line(format string, args ...any) { fmt.Fprintf(b, format+"\n", args...) }

// contents lists the families.
func (p *book) contents(methods []*gauge.Method) {
	family := ""
	for _, m := range methods {
		if m.Family != family {
			family = m.Family
			anchor := strings.ReplaceAll(strings.ReplaceAll(family, ",", ""), " ", "-")
			p.line("- [%s](#%s)", capitalised(family), anchor)
		}
	}
	p.line("")
}

// entry writes one method.
func (p *book) entry(m *gauge.Method, picture string) {
	p.line("### %s\n\n%s\n", m.ID, m.When)
	if picture != "" {
		p.line("![%s, to scale](%s)\n", m.ID, picture)
	}
	p.line("Reading: `%s`", m.Formula)
	if m.Model != nil {
		numbers := m.WithNumbers(func(role int) string { return shown(m.Example[role], m.Roles[role].Kind.Dimension()) })
		p.line("\nIn the sketch: `%s` = %s", numbers, unit.Told{Value: say.ReadingOf(m, m.Example), Dimension: m.Reads}.Shown(unit.View{}))
	}
	p.line("")
	for _, role := range m.Roles {
		p.line("- `%s` %s: %s", role.Name, role.Symbol, say.RoleText(role))
	}
	if m.HolesFor != "" {
		p.line("- `from`, `to`: two holes of a plan, in the place of `%s`", m.HolesFor)
	}
	if len(m.Roles) > 0 {
		p.line("")
	}
	for _, trap := range m.Traps {
		p.line("> %s\n", trap)
	}
	p.line("Source: %s.\n", strings.TrimSuffix(m.Source, "."))
}

// capitalised returns a text with its first letter large.
func capitalised(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
