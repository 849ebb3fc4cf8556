package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Materials lists the materials of the tables, a line each, by family.
func Materials(w io.Writer, materials []facts.Material, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		for _, family := range families(materials) {
			p.heading(family)
			rows := [][]string{{"", "number", "British Standard", "tensile, MPa"}}
			for _, m := range materials {
				if m.Family == family {
					rows = append(rows, []string{m.Name, m.EN, m.BS, tensileOver(m.Strengths())})
				}
			}
			p.table(rows)
		}
		p.line("\n  Tensile strengths are the least, from the weakest condition and section tabled to the strongest.")
		p.line("  `oddleg material NAME` tells more of one.")
	})
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

// figure writes a tabled number as the table has it.
func figure(x float64) string {
	text, _ := unit.WithUncertainty(x, 0)
	return text
}

// Material writes what the tables have of a material: its names, its strength
// by condition and ruling section, what runs against it and what not to do to
// it. Where a condition or a section was asked for, holds is what then holds;
// a section of 0 is one not stated.
func Material(w io.Writer, stock facts.Stock, section float64, holds facts.Strength, style Style) error {
	p := &printer{w: w, units: unit.Millimetre, style: style}
	parts := []func(){func() { p.materialNames(stock) }, func() { p.materialStrengths(stock.Strengths()) }}
	if stock.Condition != "" || section > 0 {
		parts = append(parts, func() { p.materialHolds(stock, section, holds) })
	}
	parts = append(parts, func() { p.elastic(holds) }, func() { p.wearPairs(stock.WearPairs()) },
		func() { p.materialCautions(stock.Cautions()) }, func() { p.materialSources(stock.Material) })
	return p.report(parts...)
}

func (p *printer) materialNames(stock facts.Stock) {
	p.line("%s  (%s)", p.paint(bold, stock.Name), stock.Family)
	if stock.Equivalent != "" {
		p.paragraph("", fmt.Sprintf("%s is another system's name: what follows is only approximately that.", stock.Equivalent))
	}
	if stock.BS != "" {
		p.line("  British Standard: %s", stock.BS)
	}
	var near []string
	for _, e := range stock.Equivalents {
		near = append(near, e.System+" "+e.Names)
	}
	if len(near) > 0 {
		p.paragraph("", "Approximate equivalents: "+strings.Join(near, "; ")+
			". Composition, sections and test pieces differ, and sources contradict each other.")
	}
}

var strengthHeading = []string{"condition", "ruling section", "tensile, MPa", "yield or proof, MPa", "elongation", "hardness"}

func (p *printer) materialStrengths(rows []facts.Strength) {
	table := [][]string{strengthHeading}
	for _, s := range rows {
		table = append(table, strengthRow(s))
		last := table[len(table)-1]
		last[0] = p.marked(last[0], s.Provenance)
	}
	p.line("")
	p.table(table)
}

func strengthRow(s facts.Strength) []string {
	elongation := ""
	if s.Elongation != "" {
		elongation = s.Elongation + " %"
	}
	tensile := "not tabled"
	switch {
	case !math.IsNaN(s.TensileMax):
		tensile = figure(s.TensileMin) + " to " + figure(s.TensileMax)
	case !math.IsNaN(s.TensileMin):
		tensile = figure(s.TensileMin) + " and over"
	}
	yield := "not tabled"
	if !math.IsNaN(s.Yield) {
		yield = figure(s.Yield)
	}
	return []string{orDash(s.Condition), sectionText(s), tensile, yield, elongation, s.Hardness}
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
func (p *printer) materialHolds(stock facts.Stock, section float64, holds facts.Strength) {
	asked := stock.Short()
	if stock.Condition != "" {
		asked += " " + stock.Condition
	}
	if section > 0 {
		asked += ", section " + unit.ShowLength(section, p.units)
	}
	p.heading(asked)
	p.table([][]string{strengthHeading, strengthRow(holds)})
	for _, doubt := range holds.Doubts {
		p.paragraph("- ", doubt)
	}
}

func (p *printer) elastic(s facts.Strength) {
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
	p.line("")
	p.paragraph("", text)
}

// verdicts are how a pair runs, best first.
var verdicts = []string{"good", "fair", "poor"}

func (p *printer) wearPairs(pairs []facts.WearPair) {
	if len(pairs) == 0 {
		return
	}
	p.heading("Runs against")
	rows := [][]string{{"", "as", "against", ""}}
	for _, verdict := range verdicts {
		for _, pair := range pairs {
			if pair.Verdict == verdict {
				rows = append(rows, []string{verdict, pair.One, pair.Other, pair.Why})
			}
		}
	}
	p.table(rows)
}

func (p *printer) materialCautions(list []facts.Caution) {
	if len(list) == 0 {
		return
	}
	p.heading("Mind")
	for _, c := range list {
		p.paragraph("- ", c.Text)
	}
}

func (p *printer) materialSources(m facts.Material) {
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
