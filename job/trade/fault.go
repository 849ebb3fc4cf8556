package trade

import (
	"fmt"
	"sort"
	"strings"
)

// Fault is something wrong in what the user gave: where, and in words what was
// found and what would be right.
type Fault struct {
	Pos  Pos
	Text string
}

// Error returns the fault as line:column: text, or the text alone where the
// place is not known.
func (f Fault) Error() string {
	if f.Pos.Line == 0 {
		return f.Text
	}
	return fmt.Sprintf("%d:%d: %s", f.Pos.Line, f.Pos.Column, f.Text)
}

// Faults is everything found wrong in one go.
type Faults []Fault

// Add appends a fault at pos.
func (f *Faults) Add(pos Pos, format string, args ...any) {
	*f = append(*f, Fault{Pos: pos, Text: fmt.Sprintf(format, args...)})
}

// Err returns the faults as an error in the order of the file, nil if there
// are none.
func (f Faults) Err() error {
	if len(f) == 0 {
		return nil
	}
	sort.SliceStable(f, func(i, j int) bool {
		a, b := f[i].Pos, f[j].Pos
		return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
	})
	return f
}

// Error returns one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}
