package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// materialCommand says what a material is good for.
type materialCommand struct {
	Name    []string `arg:"" optional:"" help:"A material, with its condition or without: EN8, '080M40 R', EN24T, S275JR, CZ121. All are listed where none is named."`
	Section string   `help:"Ruling section of the stock: what holds in it is said." placeholder:"30mm"`
	JSON    bool     `name:"json" help:"Print the answer as JSON (MPa, mm)."`
}

// Run prints what the tables have of the material, or the list of all.
func (c *materialCommand) Run(s streams) error {
	var g given
	a := c.answer(&g)
	if err := g.complain(s, c.JSON); err != nil {
		return err
	}
	return a.tell(s, c.JSON)
}

func (c *materialCommand) answer(g *given) answer {
	section := g.length("--section", c.Section)
	if len(c.Name) == 0 {
		if c.Section != "" {
			g.wrong("--section is of one material: name it")
		}
		return answer{
			says: say.Materials(facts.Materials()),
			json: func(w io.Writer) error { return report.MaterialsJSON(w, facts.Materials()) },
		}
	}
	stock, err := facts.FindMaterial(strings.Join(c.Name, " "))
	if err != nil {
		g.wrong("%v", err)
		return answer{}
	}
	holds, err := stock.Strength(section)
	if err != nil {
		g.wrong("%v", err)
	}
	return answer{
		says: say.Material(stock, section, holds),
		json: func(w io.Writer) error { return report.MaterialJSON(w, stock, section, holds) },
	}
}
