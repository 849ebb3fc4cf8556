package report

import (
	"fmt"
)

// memoryMark stands behind what is from memory, memoryText says so below.
const (
	memoryMark = " *"
	memoryText = "* from memory: no second place was seen for these figures; check them before you cut metal"
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
