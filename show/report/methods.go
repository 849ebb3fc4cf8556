package report

import (
	"strings"
)

// textWidth is how wide a paragraph is set.
const textWidth = 96

// paragraph writes text in lines of at most textWidth, the first after a mark.
func (p *printer) paragraph(mark, text string) {
	if p.pages != nil {
		p.pages.paragraph(mark, text)
		return
	}
	line := "  " + mark
	indent := strings.Repeat(" ", len(line))
	for i, word := range strings.Fields(text) {
		if i > 0 && width(line)+1+width(word) > textWidth {
			p.line("%s", line)
			line = indent + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	p.line("%s", line)
}
