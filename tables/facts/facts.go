// Package facts holds the standards' tables, embedded, a source in every row.
//
// The tables are carried as they stand, as CSV with a header line; a row that
// is marked "from memory" keeps that mark wherever it is shown. Each table has
// one typed reader, which returns all rows in the order of the file. Lengths
// that a standard gives in pitches stay in pitches; angles are in radians.
package facts

import (
	_ "embed"
	"encoding/csv"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// row is one line of a table by the names in its header.
type row map[string]string

// number returns a cell as a number. A cell that is none is our bug.
func (r row) number(column string) float64 {
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic("facts: a cell of an embedded table is not a number")
	}
	return x
}

func (r row) degrees(column string) float64 { return r.number(column) * math.Pi / 180 }

// rows splits an embedded table.
func rows(table string) []row {
	lines, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		panic("facts: an embedded table is not CSV")
	}
	list := make([]row, 0, len(lines))
	for _, line := range lines[1:] {
		r := make(row, len(line))
		for i, name := range lines[0] {
			r[name] = line[i]
		}
		list = append(list, r)
	}
	return list
}

//go:embed thread_wires.csv
var threadWires string

// ThreadWire says which measuring wires suit one form of thread. Wire
// diameters are in pitches.
type ThreadWire struct {
	Form     string  // as the trade calls it: "Whitworth"
	Angle    float64 // included, rad
	Best     float64 // touches the flank on the pitch line: 1/(2·cos(φ/2))
	Smallest float64 // its top is level with the crests of the basic form
	Largest  float64 // touches at the outer end of the straight flank
	Source   string
}

var readThreadWires = sync.OnceValue(func() []ThreadWire {
	var list []ThreadWire
	for _, r := range rows(threadWires) {
		list = append(list, ThreadWire{
			Form:     r["form"],
			Angle:    r.degrees("included_angle_deg"),
			Best:     r.number("best_wire_over_P"),
			Smallest: r.number("smallest_wire_over_P"),
			Largest:  r.number("largest_wire_over_P"),
			Source:   r["source"],
		})
	}
	return list
})

// ThreadWires returns the measuring wires of every form of thread in the
// table. Both limits are geometry of the basic form at zero lead; shop limits
// are narrower.
func ThreadWires() []ThreadWire { return slices.Clone(readThreadWires()) }
