package examples

import (
	"embed"
	"strings"
)

// Part is a pattern to begin a part with: the section of a job file that says what
// is to be made, with invented sizes and a note on what to put in their place. It
// names nothing of the job that it is put into, and every length has its unit.
type Part struct {
	Name   string // one or two words: "turned pin"
	Kind   string // as the section has it
	Source []byte
}

//go:embed parts/*.yaml
var patterns embed.FS

// Parts returns the patterns, at least one for each kind of part.
func Parts() []Part {
	parts := []Part{
		{Name: "turned pin", Kind: "turned"},
		{Name: "stepped spindle", Kind: "turned"},
		{Name: "stud", Kind: "turned"},
		{Name: "bush", Kind: "bush"},
		{Name: "nut", Kind: "nut"},
		{Name: "washer", Kind: "washer"},
		{Name: "key", Kind: "key"},
		{Name: "plate", Kind: "plate"},
		{Name: "gib", Kind: "gib"},
		{Name: "locking segment", Kind: "sector-shoe"},
	}
	for i := range parts {
		source, err := patterns.ReadFile("parts/" + strings.ReplaceAll(parts[i].Name, " ", "-") + ".yaml")
		if err != nil {
			panic("examples: a pattern is missing")
		}
		parts[i].Source = source
	}
	return parts
}
