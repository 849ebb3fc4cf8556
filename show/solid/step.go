package solid

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf16"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// STEP writes a part as an exact body by ISO 10303-214 (AP214), in mm: faces are
// planes, cylinders, cones and tori. It takes turned parts that are round all
// over, and plain extruded ones with round holes, slots, a chamfer and a stem; the error, an
// trade.Faults, names any other feature. The file has no date.
func STEP(w io.Writer, m *part.Model) error {
	b := &brep{points: map[vec]ref{}, vertices: map[vec]ref{}, directions: map[vec]ref{}, rounds: map[round]ref{}}
	var err error
	if m.Turned != nil {
		err = b.turned(m.Turned)
	} else {
		err = b.prism(m.Prism)
	}
	if err != nil {
		return err
	}
	b.product(m)
	return b.write(w, m.Name)
}

// ref is the number of an entity of the file.
type ref int

func (r ref) String() string { return "#" + strconv.Itoa(int(r)) }

// brep gathers the entities of one body.
type brep struct {
	lines      []string
	faces      []ref
	points     map[vec]ref
	vertices   map[vec]ref
	directions map[vec]ref
	rounds     map[round]ref
}

// add adds an entity. Numbers among its arguments are written as reals.
func (b *brep) add(format string, args ...any) ref {
	for i, a := range args {
		switch a := a.(type) {
		case float64:
			args[i] = real(a)
		case []ref:
			args[i] = list(a)
		case bool:
			args[i] = map[bool]string{true: ".T.", false: ".F."}[a]
		}
	}
	b.lines = append(b.lines, fmt.Sprintf(format, args...))
	return ref(len(b.lines))
}

// real writes a number so that it reads back the same; it must have a point.
func real(x float64) string {
	text := strconv.FormatFloat(x+0, 'G', -1, 64) // + 0 makes -0 a plain 0
	mantissa, exponent, scaled := strings.Cut(text, "E")
	if !strings.Contains(mantissa, ".") {
		mantissa += "."
	}
	if scaled {
		return mantissa + "E" + exponent
	}
	return mantissa
}

func list(refs []ref) string {
	words := make([]string, len(refs))
	for i, r := range refs {
		words[i] = r.String()
	}
	return "(" + strings.Join(words, ",") + ")"
}

// quoted writes a text as a string of the exchange structure: quotes doubled,
// what is not plain ASCII in UTF-16 between \X2\ and \X0\.
func quoted(text string) string {
	var s strings.Builder
	s.WriteByte('\'')
	for _, r := range text {
		switch {
		case r == '\'' || r == '\\':
			s.WriteRune(r)
			s.WriteRune(r)
		case ' ' <= r && r <= '~':
			s.WriteRune(r)
		default:
			s.WriteString(`\X2\`)
			for _, u := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&s, "%04X", u)
			}
			s.WriteString(`\X0\`)
		}
	}
	s.WriteByte('\'')
	return s.String()
}

// product adds the body, its units and what AP214 asks for round it.
func (b *brep) product(m *part.Model) {
	name := quoted(m.Name)
	body := b.add("MANIFOLD_SOLID_BREP(%s,%v)", name, b.add("CLOSED_SHELL('',%v)", b.faces))
	millimetre := b.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
	radian := b.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
	steradian := b.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
	sure := b.add("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),%v,'distance_accuracy_value','')", millimetre)
	space := b.add("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((%v))GLOBAL_UNIT_ASSIGNED_CONTEXT((%v,%v,%v))REPRESENTATION_CONTEXT('',''))",
		sure, millimetre, radian, steradian)
	origin := b.frame(vec{}, vec{0, 0, 1}, vec{1, 0, 0})
	shape := b.add("ADVANCED_BREP_SHAPE_REPRESENTATION(%s,(%v,%v),%v)", name, origin, body, space)
	context := b.add("APPLICATION_CONTEXT('automotive design')")
	b.add("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,%v)", context)
	product := b.add("PRODUCT(%s,%s,%s,(%v))", name, name, quoted(ThreadsNote), b.add("PRODUCT_CONTEXT('',%v,'mechanical')", context))
	b.add("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(%v))", product)
	formation := b.add("PRODUCT_DEFINITION_FORMATION(%s,'',%v)", quoted(m.Revision), product)
	stage := b.add("PRODUCT_DEFINITION_CONTEXT('part definition',%v,'design')", context)
	definition := b.add("PRODUCT_DEFINITION('design','',%v,%v)", formation, stage)
	b.add("SHAPE_DEFINITION_REPRESENTATION(%v,%v)", b.add("PRODUCT_DEFINITION_SHAPE('','',%v)", definition), shape)
}

func (b *brep) write(w io.Writer, name string) error {
	out := bufio.NewWriter(w) // keeps the first error for Flush
	fmt.Fprintf(out, "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((%s),'2;1');\n", quoted(ThreadsNote))
	fmt.Fprintf(out, "FILE_NAME(%s,'',(''),(''),'','oddleg','');\nFILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n", quoted(name))
	for i, line := range b.lines {
		fmt.Fprintf(out, "%v=%s;\n", ref(i+1), line)
	}
	fmt.Fprint(out, "ENDSEC;\nEND-ISO-10303-21;\n")
	return out.Flush()
}

// turned adds the faces of a turned part.
func (b *brep) turned(t *part.Turned) error {
	const other = "a STEP body is made only of parts that are round all over: "
	for _, s := range t.Segments {
		if s.Form == part.Hexagonal || s.Form == part.Squared {
			return refused("%sthis one has a hexagon or square of %s", other, unit.ShowLength(s.D0, unit.Millimetre))
		}
	}
	for _, f := range t.Flats {
		return refused("%sthis one has a flat from %s to %s", other, unit.ShowLength(f.X0, unit.Millimetre), unit.ShowLength(f.X1, unit.Millimetre))
	}
	for _, h := range t.Cross {
		return refused("%sthis one has a cross hole of %s", other, unit.ShowLength(h.Diameter, unit.Millimetre))
	}
	profile := t.Profile()
	for _, e := range profile {
		if e.Turn != geom.Straight && e.Centre.Y <= e.Radius() {
			return refused("a STEP body is not made with the fillet of %s: it is larger than the bore it is in", unit.ShowLength(e.Radius(), unit.Millimetre))
		}
	}
	b.profile(axis{along: vec{1, 0, 0}, out: vec{0, 1, 0}}, profile)
	return nil
}

// prism adds the faces of an extruded part.
func (b *brep) prism(p *part.Prism) error {
	const other = "a STEP body is made only of plain extruded parts with holes, slots, a chamfer and a stem: this one has "
	switch {
	case len(p.Ledges) > 0:
		return refused(other+"a ledge %s deep", unit.ShowLength(p.Ledges[0].Depth, unit.Millimetre))
	case p.Chamfer > 0 && sharpArc(p.Outline):
		return refused(other+"a chamfer of %s where an arc ends in a sharp corner", unit.ShowLength(p.Chamfer, unit.Millimetre))
	case p.Lean != 0:
		return refused(other+"sides that lean by %s", unit.ShowAngle(p.Lean))
	case p.Thin > 0:
		return refused(other+"a taper from %s to %s", unit.ShowLength(p.Height, unit.Millimetre), unit.ShowLength(p.Thin, unit.Millimetre))
	}
	b.extruded(p)
	return nil
}
