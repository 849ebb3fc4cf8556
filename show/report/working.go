package report

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// bare writes a number to go into a formula: lengths in the job's units
// without their name, to one place more than elsewhere.
func (p *printer) bare(x float64, d unit.Dimension) string {
	return strings.TrimSuffix(strings.TrimSuffix(p.fine(x, d), " mm"), " in")
}

// fine writes an amount to one place more than elsewhere, so that the working
// can be followed to the last place of the reading.
func (p *printer) fine(x float64, d unit.Dimension) string {
	switch {
	case d == unit.Angle:
		return fmt.Sprintf("%.4f°", x*180/math.Pi)
	case d == unit.Number:
		return p.amount(x, d)
	case p.units == unit.Inch:
		return fmt.Sprintf("%.5f in", x/unit.MillimetresPerInch)
	}
	return fmt.Sprintf("%.4f mm", x)
}
