package report

import (
	"strings"
)

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}
