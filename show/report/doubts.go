package report

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/read/adjust"
)

// valueName names one value of a reading, with its place in the list only
// where there are several.
func (p *printer) valueName(id string, index int) string {
	r := p.r.Job.Reading(id)
	name := id
	if len(r.Saw) > 1 {
		name = fmt.Sprintf("%s, value %d", id, index+1)
	}
	return name + " (" + r.By + ")"
}

func (p *printer) sourceName(s adjust.Source) string {
	switch s.Kind {
	case adjust.FromReading:
		return p.valueName(s.ID, s.Index)
	case adjust.FromKnown:
		return s.ID + " as known"
	case adjust.FromRelation:
		r := p.r.Job.Relations[s.Index]
		return "relation " + r.That + " = " + r.Is
	}
	return s.ID
}
