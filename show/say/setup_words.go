package say

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// SetUp says in words how a reading is set up and read, with pieces that may be
// borrowed for it.
func SetUp(r *trade.Reading, borrowed []trade.Piece) string {
	m, _ := gauge.Find(r.By)
	return m.Said(func(role, number string) (string, bool) {
		if role == gauge.ThatPlace {
			return r.That.Text, true
		}
		for _, arg := range r.Of {
			if arg.Role == role {
				return inRole(m, arg, number, borrowed), true
			}
		}
		return "from " + holes(r), role == m.HolesFor
	})
}

// holes names the two holes of a reading between holes of a plan.
func holes(r *trade.Reading) string {
	ends := map[string]string{}
	for _, arg := range r.Of {
		ends[arg.Role] = arg.ID
	}
	return ends["from"] + " to " + ends["to"]
}

// inRole names what stands in a role: a size or a piece of the kit by its id, a
// borrowed or a plain piece by its size.
func inRole(m *gauge.Method, arg trade.Arg, count string, borrowed []trade.Piece) string {
	if i := slices.IndexFunc(borrowed, func(p trade.Piece) bool { return p.ID == arg.ID }); i >= 0 {
		return counted(count, "borrowed "+borrowed[i].Size.String()+" "+string(borrowed[i].Kind))
	}
	if arg.ID != "" {
		if count != "" {
			return count + " of " + arg.ID
		}
		return arg.ID
	}
	role := m.Roles[m.Role(arg.Role)]
	if !role.Piece || role.Kind == gauge.AnyLength {
		return arg.Value.String()
	}
	name, _, _ := strings.Cut(role.Name, "-")
	return counted(count, arg.Value.String()+" "+name)
}

func counted(count, thing string) string {
	if count == "" {
		return "a " + thing
	}
	return count + " " + thing + "s"
}
