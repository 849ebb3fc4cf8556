package report

import (
	"strings"

	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
)

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
