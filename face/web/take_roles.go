package web

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// roles are what stands in the roles of the method, as they are written.
func (e *entering) roles() []record.Field {
	var list []record.Field
	for _, role := range e.Method.Roles {
		list = append(list, e.role(role)...)
	}
	return list
}

// role returns what stands in one role: nothing where it may be left out, two
// holes in the place of their distance.
func (e *entering) role(role gauge.Role) []record.Field {
	field := "of." + role.Name
	chosen := e.Get(field)
	switch {
	case role.Kind == gauge.Count || role.Kind == gauge.Side:
		return e.plainRole(role)
	case chosen == "" && role.Optional:
		return nil
	case chosen == "":
		e.wrong(field, "Choose what stands here")
		return nil
	case chosen == plain:
		return e.plainRole(role)
	case chosen == twoHoles:
		return e.holes(field)
	case chosen == newCircle || chosen == newLine:
		return e.place(field, chosen)
	}
	if place := e.job.Place(chosen); place != nil && place.Kind == trade.Line {
		return []record.Field{{Key: role.Also, Text: chosen}}
	}
	return []record.Field{{Key: role.Name, Text: e.filled(role, field, chosen)}}
}

// filled returns the id of what was chosen for a role, made if it is new.
func (e *entering) filled(role gauge.Role, field, chosen string) string {
	switch {
	case chosen == newSize:
		return e.size(role, field)
	case chosen == newPiece:
		return e.piece(field)
	case strings.HasPrefix(chosen, ofShop):
		return e.fromShop(field, strings.TrimPrefix(chosen, ofShop))
	}
	return chosen
}

// plainRole returns a plain value in a role.
func (e *entering) plainRole(role gauge.Role) []record.Field {
	field := "of." + role.Name + ".value"
	text := e.Get(field)
	switch {
	case text == "" && role.Optional:
		return nil
	case text == "":
		e.wrong(field, "Type its value")
		return nil
	case role.Kind == gauge.PitchLength:
		if _, err := unit.ParsePitch(e.value(text, e.job.Units), e.job.Units); err != nil {
			e.wrong(field, err.Error())
		}
		return []record.Field{{Key: role.Name, Text: e.value(text, e.job.Units)}}
	}
	return []record.Field{{Key: role.Name, Text: e.read(field, text, role.Kind.Dimension())}}
}

// size adds a new size.
func (e *entering) size(role gauge.Role, field string) string {
	id := e.newName(field+".name", role.Name)
	kind := e.Get(field + ".kind")
	if kind == "" {
		kind = string(role.Seeks())
	}
	fields := []record.Field{{Key: "kind", Text: kind}}
	for _, key := range []string{"surface", "wear", "say"} {
		if text := e.Get(field + "." + key); text != "" {
			fields = append(fields, record.Field{Key: key, Text: text})
		}
	}
	if text := e.measure(field+".known", role.Kind.Dimension()); text != "" {
		fields = append(fields, record.Field{Key: "known", Text: text})
	}
	e.add("sizes", id, fields...)
	return id
}

// piece adds a new gauge piece to the job's kit.
func (e *entering) piece(field string) string {
	kind := e.Get(field + ".piece")
	id := e.newName(field+".piece-name", kind)
	fields := []record.Field{{Key: "kind", Text: kind}, {Key: "size", Text: e.needed(field+".size", "Type its size")}}
	if fields[1].Text != "" {
		fields[1].Text = e.read(field+".size", fields[1].Text, unit.Length)
	}
	if text := e.measure(field+".tolerance", unit.Length); text != "" {
		fields = append(fields, record.Field{Key: "tolerance", Text: text})
	}
	e.add("kit", id, fields...)
	return id
}

// holes returns the two holes that stand in the place of their distance. One
// that is new is put into the plan of the other, or into a new plan.
func (e *entering) holes(field string) []record.Field {
	from, to := e.needed(field+".from", "Name the hole"), e.needed(field+".to", "Name the hole")
	if from == "" || to == "" {
		return nil
	}
	plan, _ := e.job.Hole(from)
	if plan == nil {
		plan, _ = e.job.Hole(to)
	}
	id, holes := "", []string{}
	switch {
	case plan != nil:
		id, holes = plan.ID, slices.Clone(plan.Holes)
	case len(e.job.Plans) > 0:
		e.wrong(field+".from", "Neither hole is known: read from one that is to the new one")
	default:
		id = jobedit.NextID(e.source, "plans", "plan")
	}
	known := len(holes)
	for _, hole := range []string{from, to} {
		if !slices.Contains(holes, hole) {
			holes = append(holes, hole)
		}
	}
	if len(holes) > known && id != "" {
		e.add("plans", id, record.Field{Key: "holes", List: holes})
	}
	return []record.Field{{Key: "from", Text: from}, {Key: "to", Text: to}}
}

// place adds a circle or a line that is touched.
func (e *entering) place(field, what string) []record.Field {
	id := e.newName(field+".name", "place")
	if what == newLine {
		e.add("places", id, record.Field{Key: "kind", Text: string(trade.Line)})
		return []record.Field{{Key: "line", Text: id}}
	}
	across := e.needed(field+".diameter", "Name the size that is its diameter, or type it")
	switch {
	case across == "" || e.job.Size(across) != nil:
	case keys.IsID(across):
		e.add("sizes", across, record.Field{Key: "kind", Text: string(trade.Diameter)})
	default:
		across = e.read(field+".diameter", across, unit.Length)
	}
	e.add("places", id, record.Field{Key: "kind", Text: string(trade.Circle)}, record.Field{Key: "diameter", Text: across})
	return []record.Field{{Key: "circle", Text: id}}
}
