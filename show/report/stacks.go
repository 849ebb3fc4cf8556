package report

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// stacks says what each chain of sizes comes to.
func (p *making) stacks() {
	if len(p.f.Stacks) == 0 {
		return
	}
	p.heading("Sums of sizes")
	for i := range p.f.Stacks {
		c := &p.f.Stacks[i]
		name := p.paint(bold, c.Stack.ID) + " = " + c.Stack.That.Text
		if !c.Determined {
			p.paragraph("", name+": "+p.paint(yellow, "not found")+", as not all sizes in it are.")
			continue
		}
		p.paragraph("", name+": "+p.sum(c))
		p.links(c)
	}
}

// sum says what a chain comes to.
func (p *making) sum(c *fit.Chain) string {
	show := func(x float64) string { return p.amount(x, c.Dimension) }
	said := fmt.Sprintf("%s, 95 %% between %s and %s; at the worst %s to %s; ±%s by root-sum-square.",
		show(c.Value), show(c.Low), show(c.High), show(c.WorstLow), show(c.WorstHigh), p.halfWidth(c.RSS, c.Dimension))
	if math.IsNaN(c.Within) {
		return said
	}
	said += fmt.Sprintf(" It ends in what is wanted, %s to %s, in %s.",
		show(c.Stack.Wanted.Low.Inside()), show(c.Stack.Wanted.High.Inside()), often(c.Within))
	if c.Halved > c.Within {
		said += fmt.Sprintf(" With %s known or held twice as closely it would in %s.", c.Links[0].Name, often(c.Halved))
	}
	return said
}

// links writes the links of a chain, that with most part in its scatter first.
func (p *making) links(c *fit.Chain) {
	rows := [][]string{{"link", "±", "counts", "part of the scatter"}}
	for _, l := range c.Links {
		rows = append(rows, []string{l.Name, p.halfWidth(l.Half, p.linkDimension(c, l)), fmt.Sprintf("× %.3g", l.Sensitivity), fmt.Sprintf("%.0f %%", 100*l.Part)})
	}
	p.table(rows)
}

// linkDimension returns what a link measures; of several sizes together, what
// the chain does.
func (p *making) linkDimension(c *fit.Chain, l fit.Link) unit.Dimension {
	id, _ := strings.CutPrefix(l.Name, "part.")
	if m := p.f.Of(id); m != nil && id != l.Name {
		return m.Size.Kind.Dimension()
	}
	if d, known := p.r.DimensionOf(l.Name); known {
		return d
	}
	return c.Dimension
}
