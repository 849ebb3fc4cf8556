package report

import (
	"fmt"
	"slices"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// memoryMark stands behind what is from memory, memoryText says so below.
const (
	memoryMark = " *"
	memoryText = "* from memory: no second place was seen for these figures; check them before you cut metal"
)

func (p *printer) marked(text, source string) string {
	if facts.FromMemory(source) {
		return text + p.paint(yellow, memoryMark)
	}
	return text
}

func (p *printer) memoryNote(any bool) {
	if any {
		p.line("  %s", p.paint(yellow, memoryText))
	}
}

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

// sourceList keeps what each figure rests on, each source once.
type sourceList []string

func (l *sourceList) add(what, source string) {
	line := what + ": " + source
	if source != "" && !slices.Contains(*l, line) {
		*l = append(*l, line)
	}
}

func (p *printer) sources(list sourceList) {
	p.line("\n  Sources")
	memory := false
	for _, line := range list {
		p.paragraph("- ", line)
		memory = memory || facts.FromMemory(line)
	}
	p.memoryNote(memory)
}
