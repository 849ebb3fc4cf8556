package report

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// steps says in words how each size is read; distances of holes that are read alike
// are said at once.
func (p *checking) steps(list []inspect.Step) {
	var alike []string
	for i := range list {
		said := p.overPlugs(&list[i])
		if said == "" {
			p.step(&list[i])
			continue
		}
		alike = append(alike, list[i].Made.Size.ID)
		if i+1 == len(list) || p.overPlugs(&list[i+1]) != said {
			p.paragraph("", p.paint(bold, strings.Join(alike, ", "))+": "+said)
			alike = nil
		}
	}
}

// overPlugs says how the distance of two holes is read over or between plugs that
// fill them, empty for other readings and for one that is no good judge.
func (p *checking) overPlugs(s *inspect.Step) string {
	if s.Reading == nil || s.Good != inspect.Fit {
		return ""
	}
	m, _ := gauge.Find(s.Reading.By)
	how, ok := map[gauge.Jaw]string{gauge.Closing: "over", gauge.Opening: "between"}[m.Jaw]
	if !ok || m.HolesFor == "" {
		return ""
	}
	var plugs []string
	for _, arg := range s.Reading.Of {
		if strings.HasPrefix(arg.Role, "plug") {
			plugs = append(plugs, p.plug(arg))
		}
	}
	plugs = slices.Compact(plugs)
	return fmt.Sprintf("read %s plugs that fill the holes (%s), with %s.", how, strings.Join(plugs, ", "), p.with(s))
}

func (p *checking) plug(arg trade.Arg) string {
	if arg.ID != "" {
		return arg.ID
	}
	return "turned to " + p.length(arg.Value.Inside())
}
