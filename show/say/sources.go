package say

import (
	"slices"

	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// memoryMark stands behind what is from memory, memoryText says so below.
const (
	memoryMark = " *"
	memoryText = "* from memory: no second place was seen for these figures; check them before you cut metal"
)

// marked puts a mark behind what is from memory.
func marked(text, source string) doc.Text {
	if facts.FromMemory(source) {
		return doc.Say("%s%s", text, warning(doc.Plain(memoryMark)))
	}
	return doc.Plain(text)
}

// memoryNote says what the mark means, where there is any.
func (p *page) memoryNote(any bool) {
	if any {
		p.say("%s", warning(doc.Plain(memoryText)))
	}
}

// sourceList keeps what each figure rests on, each source once.
type sourceList []string

func (l *sourceList) add(what, source string) {
	line := what + ": " + source
	if source != "" && !slices.Contains(*l, line) {
		*l = append(*l, line)
	}
}

// sources lists what figures rest on.
func (p *page) sources(list sourceList) {
	p.section("Sources")
	for _, line := range list {
		p.item("%s", line)
	}
	p.memoryNote(slices.ContainsFunc(list, facts.FromMemory))
}
