package yamltree

import "codeberg.org/oddleg/oddleg/job/trade"

// mostFaults is how many faults of one file are told.
const mostFaults = 1000

// Faults gathers what is wrong in a file.
type Faults struct {
	list trade.Faults
	more *trade.Fault // stands for all that are not told
}

// Add notes a fault at a place. Beyond what is told it takes no time.
func (f *Faults) Add(pos trade.Pos, format string, args ...any) {
	switch {
	case len(f.list) < mostFaults:
		f.list.Add(pos, format, args...)
	case f.more == nil:
		f.more = &trade.Fault{Pos: pos, Text: "here and elsewhere are more faults than can be told"}
	}
}

// Count returns how many faults have been told.
func (f *Faults) Count() int { return len(f.list) }

// Err returns the faults in the order of the file, nil if there are none.
func (f *Faults) Err() error {
	if f.more != nil {
		f.list = append(f.list, *f.more)
		f.more = nil
	}
	return f.list.Err()
}
