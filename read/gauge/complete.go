package gauge

import (
	"fmt"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Missing names what an entry of the catalogue lacks: everything that some
// stage or face of the program asks of a method. It is empty for a complete one.
func Missing(m *Method) []string {
	var list []string
	lacks := func(is bool, what string, more ...any) {
		if is {
			list = append(list, fmt.Sprintf(what, more...))
		}
	}
	general := m.ID == trade.FormulaMethod // written as an expression, it has neither roles nor a picture
	lacks(m.ID == "", "ID")
	lacks(m.Family == "", "Family")
	lacks(m.When == "", "When")
	lacks(m.SetUp == "", "SetUp")
	lacks(len(m.For) == 0, "For")
	lacks(len(m.Words) == 0, "Words")
	lacks(m.Formula == "", "Formula")
	lacks(len(m.Traps) == 0, "Traps")
	lacks(m.Source == "", "Source")
	lacks(!general && len(m.Roles) == 0, "Roles")
	lacks(!general && (m.Model == nil) != m.Pairs, "Model nor Pairs")
	lacks(m.Pairs && (len(m.Roles) == 0 || m.Roles[0].Kind != PlaceTouched), "place touched as its first role")
	lacks(!general && len(m.Example) != len(m.Roles), "Example")
	lacks(!general && m.Sketch == nil, "Sketch")
	lacks(!general && m.Jaw == NoJaw && len(m.ReadBy) == 0, "Jaw nor ReadBy")
	lacks(!general && !m.Apart && len(m.Kin)+len(m.Plainer)+len(m.Meets) == 0, "Kin, Plainer, Meets nor Apart")
	lacks(m.HolesFor != "" && m.Role(m.HolesFor) < 0, "role %s for its HolesFor", m.HolesFor)
	lacks(m.Counting != nil && (m.Role(m.Counting.Role) < 0 || m.Counting.Try == nil), "role or numbers to try for "+
		"its Counting")
	lacks(m.HolesFor != "" && len(m.Plugs()) != 2, "two plugs for its HolesFor")
	for _, p := range m.Proves {
		for _, name := range append(besides[p.Of], p.Role) {
			lacks(m.Role(name) < 0, "role %s for its Proves", name)
		}
	}
	for _, name := range m.unsaid() {
		lacks(true, "role %s that its SetUp names", name)
	}
	for i := range m.Roles {
		list = append(list, m.missingIn(&m.Roles[i])...)
	}
	return list
}

// missingIn names what a role of a method lacks.
func (m *Method) missingIn(r *Role) []string {
	var list []string
	lacks := func(is bool, what string) {
		if is {
			list = append(list, what+" of its role "+r.Name)
		}
	}
	lacks(r.Name == "", "Name")
	lacks(r.Symbol == "", "Symbol")
	lacks(r.Piece && len(r.Pieces) == 0, "Pieces")
	lacks(r.Piece && (r.Counted == 0) != r.Uncounted, "Counted or Uncounted")
	lacks(!r.Piece && r.Kind == AnyLength && r.Sought == "", "Sought")
	lacks(r.Kind == Side && m.Role(r.SideOf) < 0, "SideOf")
	lacks(r.Chosen && !r.Optional && !m.says(r.Name), "words in its SetUp")
	return list
}

// besides are the roles that a method must have to prove a feature, beside the
// one in which that stands.
var besides = map[Feature][]string{
	PartArc:        {"roller", "half-chord", "side"},
	PartCentres:    {"plug-1", "plug-2"},
	ScrewEffective: {"pitch", "angle"},
	NutEffective:   {"pitch", "angle"},
}

// MissingOf names what the entry of an instrument lacks. What reads by a method
// is said by its Jaws or by the ReadBy of the method.
func MissingOf(i *Instrument) []string {
	var list []string
	lacks := func(is bool, what string) {
		if is {
			list = append(list, what)
		}
	}
	lacks(i.Kind == "", "Kind")
	lacks(i.Name == "", "Name")
	lacks(len(i.Words) == 0, "Words")
	said := 0
	for _, one := range []bool{i.MPE > 0, i.ErrorOfScale, i.ErrorUnknown} {
		if one {
			said++
		}
	}
	lacks(said != 1, "single one of MPE, ErrorOfScale and ErrorUnknown")
	lacks(i.Angles && i.Either, "single one of Angles and Either")
	idle := !slices.ContainsFunc(Methods(), i.Reads) && i.Kind != trade.OtherInstrument
	lacks(idle, "Jaws nor a method that names it")
	return list
}
