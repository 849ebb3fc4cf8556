package say

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/make/fit"
)

// percent writes a probability, and never says that a thing is sure.
func percent(x float64) string {
	switch {
	case x > 0.995:
		return "over 99 %"
	case x < 0.001:
		return "under 0.1 %"
	case x < 0.01:
		return fmt.Sprintf("%.1f %%", 100*x)
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}

// toATenth writes a probability to a tenth of a per cent, of which neither end is
// ever reached.
func toATenth(p float64) string {
	switch {
	case p > 0.999:
		return "over 99.9 %"
	case p < 0.001:
		return "under 0.1 %"
	}
	return fmt.Sprintf("%.1f %%", 100*p)
}

// often writes a chance in per cent and in words.
func often(p float64) string {
	const rare = 0.001
	words := fmt.Sprintf("%.0f in 10", 10*p)
	switch {
	case p < rare/10:
		return "as good as none"
	case p > 1-rare/10:
		return "as good as all cases"
	case p < rare || p > 1-rare:
		return fit.Percent(p) + " of cases"
	case p >= 0.9:
		words = fmt.Sprintf("all but 1 in %.0f", 1/(1-p))
	case p <= 0.1:
		words = fmt.Sprintf("1 in %.0f", 1/p)
	}
	return fit.Percent(p) + " of cases (" + words + ")"
}
