package jobfile

import "codeberg.org/oddleg/oddleg/job/trade"

// mostFaults is how many faults of one file are told.
const mostFaults = 1000

// faults gathers what is wrong in a file.
type faults struct {
	list trade.Faults
	more *trade.Fault // stands for all that are not told
}

// add notes a fault at a place. Beyond what is told it takes no time.
func (f *faults) add(pos trade.Pos, format string, args ...any) {
	switch {
	case len(f.list) < mostFaults:
		f.list.Add(pos, format, args...)
	case f.more == nil:
		f.more = &trade.Fault{Pos: pos, Text: "here and elsewhere are more faults than can be told"}
	}
}

// err returns the faults in the order of the file, nil if there are none.
func (f *faults) err() error {
	if f.more != nil {
		f.list = append(f.list, *f.more)
		f.more = nil
	}
	return f.list.Err()
}
