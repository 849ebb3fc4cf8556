package say

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Materials lists the materials of the tables, a line each, by family.
func Materials(materials []facts.Material) *doc.Document {
	p := &page{}
	for _, family := range families(materials) {
		p.chapter("%s", family)
		t := &doc.Table{Name: "materials", Columns: []doc.Column{
			{Name: "name"}, plain("number"), plain("British Standard"), {Name: "tensile", Head: doc.Plain("tensile, MPa")},
		}}
		for _, m := range materials {
			if m.Family == family {
				t.Add(doc.Cells{
					"name": doc.Plain(m.Name), "number": doc.Plain(m.EN), "British Standard": doc.Plain(m.BS),
					"tensile": doc.Plain(tensileOver(m.Strengths())),
				})
			}
		}
		p.Add(t)
	}
	p.apart("Tensile strengths are the least, from the weakest condition and section tabled to the strongest.")
	p.say("`%s` tells more of one.", doc.Do(doc.Action{Verb: "material", Args: []string{"NAME"}, Words: "Materials"}))
	return &p.Document
}

// families returns the families in the order of their first members.
func families(materials []facts.Material) []string {
	var list []string
	for _, m := range materials {
		if !slices.Contains(list, m.Family) {
			list = append(list, m.Family)
		}
	}
	return list
}

// tensileOver writes from where to where the tensile strength of some rows goes.
func tensileOver(rows []facts.Strength) string {
	low, high := math.Inf(1), 0.0
	for _, s := range rows {
		if !math.IsNaN(s.TensileMin) {
			low, high = min(low, s.TensileMin), max(high, s.TensileMin)
		}
	}
	switch {
	case high == 0:
		return "no strength tabled"
	case low == high:
		return figure(low)
	}
	return figure(low) + " to " + figure(high)
}

// Material says what the tables have of a material: its names, its strength by
// condition and ruling section, what runs against it and what not to do to it. Where
// a condition or a section was asked for, holds is what then holds; a section of 0 is
// one not stated.
func Material(stock facts.Stock, section float64, holds facts.Strength) *doc.Document {
	p := &page{}
	p.Title = doc.Say("%s  (%s)", stock.Name, stock.Family)
	p.materialNames(stock)
	t := strengths()
	t.Space = doc.Apart
	for _, s := range stock.Strengths() {
		row := strengthRow(s)
		row["condition"] = marked(row["condition"].Shown(millimetres), s.Provenance)
		t.Add(row)
	}
	p.Add(t)
	if stock.Condition != "" || section > 0 {
		p.materialHolds(stock, section, holds)
	}
	p.elastic(holds)
	p.wearPairs(stock.WearPairs())
	p.materialCautions(stock.Cautions())
	p.materialSources(stock.Material)
	return &p.Document
}

func (p *page) materialNames(stock facts.Stock) {
	if stock.Equivalent != "" {
		p.say("%s is another system's name: what follows is only approximately that.", stock.Equivalent)
	}
	if stock.BS != "" {
		p.say("British Standard: %s", stock.BS)
	}
	var near []string
	for _, e := range stock.Equivalents {
		near = append(near, e.System+" "+e.Names)
	}
	if len(near) > 0 {
		p.say("Approximate equivalents: %s. Composition, sections and test pieces differ, and sources contradict each other.", strings.Join(near, "; "))
	}
}

func strengths() *doc.Table {
	return &doc.Table{Name: "strengths", Columns: []doc.Column{
		plain("condition"), plain("ruling section"),
		{Name: "tensile", Head: doc.Plain("tensile, MPa")},
		{Name: "yield", Head: doc.Plain("yield or proof, MPa")},
		plain("elongation"), plain("hardness"),
	}}
}

func strengthRow(s facts.Strength) doc.Cells {
	row := doc.Cells{
		"condition": doc.Plain(orDash(s.Condition)), "ruling section": doc.Plain(sectionText(s)), "tensile": doc.Plain("not tabled"),
		"yield": doc.Plain("not tabled"), "hardness": doc.Plain(s.Hardness),
	}
	if s.Elongation != "" {
		row["elongation"] = doc.Plain(s.Elongation + " %")
	}
	switch {
	case !math.IsNaN(s.TensileMax):
		row["tensile"] = doc.Plain(figure(s.TensileMin) + " to " + figure(s.TensileMax))
	case !math.IsNaN(s.TensileMin):
		row["tensile"] = doc.Plain(figure(s.TensileMin) + " and over")
	}
	if !math.IsNaN(s.Yield) {
		row["yield"] = doc.Plain(figure(s.Yield))
	}
	return row
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

func sectionText(s facts.Strength) string {
	switch {
	case math.IsInf(s.To, 1):
		return "not stated"
	case s.Over == 0:
		return "up to " + figure(s.To) + " mm"
	}
	return figure(s.Over) + " to " + figure(s.To) + " mm"
}

// materialHolds says what holds of what was asked for.
func (p *page) materialHolds(stock facts.Stock, section float64, holds facts.Strength) {
	asked := doc.Plain(stock.Short())
	if stock.Condition != "" {
		asked = doc.Say("%s %s", asked, stock.Condition)
	}
	if section > 0 {
		asked = doc.Say("%s, section %s", asked, length(section))
	}
	p.chapter("%s", asked)
	t := strengths()
	t.Add(strengthRow(holds))
	p.Add(t)
	for _, doubt := range holds.Doubts {
		p.item("%s", doubt)
	}
}

func (p *page) elastic(s facts.Strength) {
	var list []string
	if e := s.E(); !math.IsNaN(e) {
		text := figure(s.ELow / 1000)
		if s.ELow < s.EHigh {
			text += " to " + figure(s.EHigh/1000)
		}
		list = append(list, "E "+text+" GPa")
	}
	if !math.IsNaN(s.CTE) {
		list = append(list, "expands "+figure(s.CTE*1e6)+" µm in a metre for each °C")
	}
	if !math.IsNaN(s.Density) {
		list = append(list, "density "+figure(s.Density)+" kg/m³")
	}
	text := strings.Join(list, ", ")
	if s.Borrowed != "" {
		text += "; where its own row is silent, those of " + s.Borrowed
	}
	p.apart("%s", text)
}

// wearVerdicts are how a pair runs, best first.
var wearVerdicts = []string{"good", "fair", "poor"}

func (p *page) wearPairs(pairs []facts.WearPair) {
	if len(pairs) == 0 {
		return
	}
	p.chapter("Runs against")
	t := &doc.Table{Name: "pairs", Columns: []doc.Column{{Name: "runs"}, plain("as"), plain("against"), {Name: "why"}}}
	for _, verdict := range wearVerdicts {
		for _, pair := range pairs {
			if pair.Verdict == verdict {
				t.Add(doc.Cells{"runs": doc.Plain(verdict), "as": doc.Plain(pair.One), "against": doc.Plain(pair.Other), "why": doc.Plain(pair.Why)})
			}
		}
	}
	p.Add(t)
}

func (p *page) materialCautions(list []facts.Caution) {
	if len(list) == 0 {
		return
	}
	p.chapter("Mind")
	for _, c := range list {
		p.item("%s", c.Text)
	}
}

func (p *page) materialSources(m facts.Material) {
	var list sourceList
	for _, s := range m.Strengths() {
		list.add("strength", s.Source+" ("+s.Provenance+")")
		list.add("note", s.Note)
	}
	for _, pair := range m.WearPairs() {
		list.add("runs against", pair.Source)
	}
	for _, c := range m.Cautions() {
		list.add("mind", c.Source)
	}
	if i := slices.IndexFunc(m.Strengths(), func(s facts.Strength) bool { return s.Borrowed != "" }); i >= 0 {
		for _, s := range borrowedFrom(m.Strengths()[i].Borrowed) {
			list.add("E, expansion, density", s.Source+" ("+s.Provenance+")")
		}
	}
	p.sources(list)
}

// borrowedFrom returns the rows of the material of this name.
func borrowedFrom(name string) []facts.Strength {
	all := facts.Materials()
	i := slices.IndexFunc(all, func(m facts.Material) bool { return m.Name == name })
	return all[i].Strengths()
}
