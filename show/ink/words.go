package ink

import (
	"strings"
	"unicode"
)

// Readable returns words without what is not seen, as papers write them: control
// characters become spaces, marks that turn the direction of reading go.
func Readable(words string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r), r == unicode.ReplacementChar:
			return ' '
		case unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, words)
}

// Clipped returns words on one line no longer than width: where they are too long, their
// beginning.
func Clipped(words string, height float64, bold bool, width float64) string {
	words = strings.Join(strings.Fields(Readable(words)), " ")
	if Width(words, height, bold) <= width {
		return words
	}
	head, long := "", Width("…", height, bold)
	for _, r := range words {
		if long += Width(string(r), height, bold); long > width && head != "" {
			break
		}
		head += string(r)
	}
	return strings.TrimSpace(head) + "…"
}
