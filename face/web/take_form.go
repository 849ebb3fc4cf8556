package web

import (
	"strings"

	"github.com/a-h/templ"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// fewestRows is how many values a form has room for at first.
const fewestRows = 3

// rows are the values typed, each with the y of a touch, and room for more.
func (t *taking) rows() [][2]string {
	x, y := t.Values["saw"], t.Values["saw.y"]
	rows := make([][2]string, max(fewestRows, len(x)))
	for i := range rows {
		if i < len(x) {
			rows[i][0] = x[i]
		}
		if i < len(y) {
			rows[i][1] = y[i]
		}
	}
	return rows
}

// marks are the attributes of a field in which something is wrong.
func (t *taking) marks(field string) templ.Attributes {
	if t.Wrong[field] == "" {
		return nil
	}
	return templ.Attributes{"aria-invalid": "true", "aria-describedby": wrongID(field)}
}

// wrongID is where it is said what is wrong with a field.
func wrongID(field string) string { return "wrong-" + strings.ReplaceAll(field, ".", "-") }

// unit is the one that figures are typed in: the job's, until another is chosen.
func (t *taking) unit(job *trade.Job) string {
	if chosen := t.Get("unit"); chosen != "" {
		return chosen
	}
	return job.Units.String()
}

// unitName is what a unit is called beside its choice.
func unitName(word string) string {
	if word == unit.Inch.String() {
		return "inch"
	}
	return word
}

// keypad is what a telephone offers to type a value with. That of an inch
// fraction needs a blank and a stroke.
func (t *taking) keypad() string {
	if t.Get("unit") == unit.Inch.String() || t.Method.Reads == unit.Angle {
		return "text"
	}
	return "decimal"
}

// roleName is what a role is called: "pin", "small end".
func roleName(role gauge.Role) string { return strings.ReplaceAll(role.Name, "-", " ") }

// choosesPieces reports whether a gauge piece can stand in a role.
func (t *taking) choosesPieces(role gauge.Role) bool { return role.Kind.Dimension() == unit.Length }

func (t *taking) kindOf(role gauge.Role) trade.SizeKind {
	if typed := t.Get("of." + role.Name + ".kind"); typed != "" {
		return trade.SizeKind(typed)
	}
	return role.Seeks()
}

func (t *taking) pieceOf(role gauge.Role) trade.PieceKind {
	if typed := t.Get("of." + role.Name + ".piece"); typed != "" {
		return trade.PieceKind(typed)
	}
	return role.PieceKind()
}

func (t *taking) ofJob(job *trade.Job) []choice {
	list, _ := t.instruments(job)
	return list
}

func (t *taking) ofShop(job *trade.Job) []choice {
	_, list := t.instruments(job)
	return list
}

// names lists what a formula may speak of.
func (t *taking) names(job *trade.Job) string {
	var list []string
	for _, size := range job.Sizes {
		list = append(list, size.ID)
	}
	for _, piece := range job.Pieces {
		list = append(list, piece.ID)
	}
	return strings.Join(list, ", ")
}

// isFilled reports whether the set-up is said and only what it showed is
// missing, as where the next of the same is taken.
func (t *taking) isFilled() bool {
	if len(t.Wrong) > 0 || t.Get("with") == "" || strings.HasPrefix(t.Get("with"), "+") || t.isFormula() {
		return false
	}
	for _, role := range t.Method.Roles {
		chosen := t.Get("of." + role.Name)
		value := t.Get("of." + role.Name + ".value")
		if strings.HasPrefix(chosen, "+") || !role.Optional && chosen == "" || chosen == plain && value == "" {
			return false
		}
	}
	return true
}

// inShort says what stands in the roles.
func (t *taking) inShort() string {
	var list []string
	for _, role := range t.Method.Roles {
		switch chosen := t.Get("of." + role.Name); chosen {
		case "":
		case plain:
			list = append(list, roleName(role)+" "+t.Get("of."+role.Name+".value"))
		case twoHoles:
			list = append(list, t.Get("of."+role.Name+".from")+" to "+t.Get("of."+role.Name+".to"))
		default:
			list = append(list, roleName(role)+" "+strings.TrimPrefix(chosen, ofShop))
		}
	}
	return strings.Join(list, ", ")
}
