package report

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Faults writes what is wrong with a file, each fault with the line it stands
// in and a mark below the place.
func Faults(w io.Writer, name string, source []byte, faults trade.Faults) {
	lines := strings.Split(strings.ReplaceAll(string(source), "\r\n", "\n"), "\n")
	for _, f := range faults {
		if f.Pos.Line < 1 || f.Pos.Line > len(lines) {
			fmt.Fprintf(w, "%s: %s\n", name, f.Text)
			continue
		}
		fmt.Fprintf(w, "%s:%d:%d: %s\n", name, f.Pos.Line, f.Pos.Column, f.Text)
		snippet(w, strings.TrimPrefix(lines[f.Pos.Line-1], "\ufeff"), f.Pos.Column)
	}
}

// window is how much of a line is shown on each side of a fault.
const window = 50

// snippet shows a line, or the part of a long one about the column, with a
// mark under the column. What a terminal would act on is shown as a question
// mark.
func snippet(w io.Writer, line string, column int) {
	runes := []rune(strings.Map(printable, line))
	at := min(max(column-1, 0), len(runes))
	from, to := max(0, at-window), min(len(runes), at+window)
	fmt.Fprintf(w, "    %s\n    %s^\n", string(runes[from:to]), strings.Repeat(" ", at-from))
}

func printable(r rune) rune {
	switch {
	case r == '\t':
		return ' '
	case r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r == '\ufffd':
		return '?'
	}
	return r
}
