package lathe

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// stuff is what machines alike: the names it goes by, and the rows of the tables
// of speeds that are it.
type stuff struct {
	name string
	also []string
	rows []string
}

var stuffs = []stuff{
	{"mild steel", []string{"steel", "machine steel", "free-cutting steel"}, []string{"mild steel", "machine steel"}},
	{"cast steel", nil, []string{"cast steel"}},
	{"alloy steel", []string{"alloy steel, hard"}, []string{"alloy steel, hard"}},
	{"tool steel", []string{"tool steel, annealed", "silver steel", "gauge plate"}, []string{"tool steel", "tool steel, annealed"}},
	{"stainless steel", []string{"stainless", "stainless steel, unhardened"}, []string{"stainless steel", "stainless steel, unhardened"}},
	{"cast iron", []string{"grey cast iron", "cast iron, soft"}, []string{"grey cast iron", "grey cast iron (class 20)", "cast iron, soft"}},
	{"hard cast iron", []string{"cast iron, hard"}, []string{"cast iron, hard"}},
	{"phosphor bronze", []string{"hard bronze", "bronze, hard"}, []string{"copper and phosphor bronze", "bronze, hard"}},
	{"bronze", []string{"gunmetal"}, []string{"brass and bronze", "brass and bronze, other"}},
	{"brass", nil, []string{"brass and bronze", "brass and bronze, other", "brass, soft yellow"}},
	{"free-machining brass", []string{"brass, free machining"}, []string{"brass, free machining", "brass and bronze"}},
	{"copper", nil, []string{"copper", "copper and phosphor bronze"}},
	{"aluminium", []string{"aluminium alloy", "aluminium and alloys", "dural"}, []string{"aluminium", "aluminium and alloys"}},
	{"titanium", nil, []string{"titanium"}},
}

// names returns all that a material is called here.
func (s stuff) names() []string { return append([]string{s.name}, s.also...) }

// stuffOf finds what a material is by a word of the trade, or by a name that the
// tables of strength have.
func stuffOf(text string) (stuff, error) {
	if s, found := stuffNamed(text); found {
		return s, nil
	}
	stock, err := facts.FindMaterial(text)
	if err == nil {
		s, found := stuffNamed(machinesLike(stock.Material))
		if !found {
			panic("setup: a material machines like nothing that the tables of speeds have")
		}
		return s, nil
	}
	var names []string
	for _, s := range stuffs {
		names = append(names, s.names()...)
	}
	if name, ok := near.Word(strings.ToLower(text), names); ok {
		return stuff{}, fmt.Errorf("%q: did you mean %s?", text, name)
	}
	return stuff{}, err
}

func stuffNamed(text string) (stuff, bool) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	i := slices.IndexFunc(stuffs, func(s stuff) bool { return slices.Contains(s.names(), text) })
	if i < 0 {
		return stuff{}, false
	}
	return stuffs[i], true
}

// mild are the steels that machine like mild steel; the others count as alloy
// steel, whose speeds are safe to start with (common practice, no source).
var mild = []string{"EN1A", "EN1A Pb", "EN3B", "EN32", "S275JR", "A36"}

// machinesLike returns the word for what a material of the strength tables cuts
// like.
func machinesLike(m facts.Material) string {
	switch m.Family {
	case "steel":
		if slices.Contains(mild, m.Short()) {
			return "mild steel"
		}
		return "alloy steel"
	case "bronze":
		if strings.HasPrefix(m.Name, "phosphor") {
			return "phosphor bronze"
		}
	case "brass":
		return "free-machining brass"
	}
	return m.Family
}
