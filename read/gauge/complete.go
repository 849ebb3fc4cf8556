package gauge

import "fmt"

// Missing names what an entry of the catalogue lacks: everything that some
// stage or face of the program asks of a method. It is empty for a complete one.
func Missing(m *Method) []string {
	var list []string
	lacks := func(is bool, what string, more ...any) {
		if is {
			list = append(list, fmt.Sprintf(what, more...))
		}
	}
	general := m.Model == nil && !m.Pairs // written as an expression, it has neither roles nor a picture
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
	lacks(!general && len(m.Example) != len(m.Roles), "Example")
	lacks(!general && m.Sketch == nil, "Sketch")
	lacks(!general && m.Jaw == NoJaw && len(m.ReadBy) == 0, "Jaw nor ReadBy")
	lacks(!general && !m.Apart && len(m.Kin)+len(m.Plainer)+len(m.Meets) == 0, "Kin, Plainer, Meets nor Apart")
	lacks(m.HolesFor != "" && m.Role(m.HolesFor) < 0, "role %s for its HolesFor", m.HolesFor)
	lacks(m.Counting != nil && (m.Role(m.Counting.Role) < 0 || m.Counting.Try == nil), "role or numbers to try for "+
		"its Counting")
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
