package report

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// Simulation writes simulated sizes beside those worked out.
func Simulation(w io.Writer, r *adjust.Result, s *simulate.Simulation, style Style) error {
	p := &printer{w: w, r: r, units: r.Job.Shown(), style: style}
	return p.report(func() { p.simulated(s) })
}

func (p *printer) simulated(s *simulate.Simulation) {
	p.heading(fmt.Sprintf("Simulated %d times (seed %d)", s.Trials, s.Seed))
	if len(s.Sizes) == 0 {
		p.line("  There is no size to simulate.")
		return
	}
	name := "mm"
	if p.units == unit.Inch {
		name = "in"
	}
	rows := [][]string{{"size", "worked out, " + name + " ± 95 %", "on average", "95 % of the times between", ""}}
	agree := true
	for i := range s.Sizes {
		size := &s.Sizes[i]
		low, high := size.Interval()
		remark := remarkOn(size.Moved())
		agree = agree && remark == agrees
		first, _ := p.both(size.Straight.Value, adjust.Coverage95*size.Straight.U, size.Dimension)
		rows = append(rows, []string{
			size.ID, first, p.asFine(size, size.Mean), p.asFine(size, low) + " and " + p.asFine(size, high), p.paintRemark(remark),
		})
	}
	p.table(rows)
	p.simulationRemarks(s, agree)
}

const agrees = "agrees"

// remarkOn says how the simulated interval lies beside the other, given which
// way its ends have moved.
func remarkOn(low, high int) string {
	switch [2]int{low, high} {
	case [2]int{0, 0}:
		return agrees
	case [2]int{1, -1}:
		return "narrower"
	case [2]int{-1, 1}:
		return "wider"
	case [2]int{1, 1}:
		return "higher"
	case [2]int{-1, -1}:
		return "lower"
	case [2]int{0, 1}:
		return "reaches higher"
	case [2]int{-1, 0}:
		return "reaches lower"
	case [2]int{1, 0}:
		return "reaches less low"
	}
	return "reaches less high"
}

func (p *printer) paintRemark(remark string) string {
	if remark == agrees {
		return remark
	}
	return p.paint(yellow, remark)
}

func (p *printer) simulationRemarks(s *simulate.Simulation, agree bool) {
	if agree {
		p.line("\n  What was worked out holds.")
	} else {
		p.line("\n  Where they differ, the simulated interval is the truer one: it takes tolerances as limits that nothing")
		p.line("  passes, and formulas as bent as they are.")
	}
	if s.Failed > 0 {
		p.line("  %s", p.paint(yellow, fmt.Sprintf("%d of the %d times there was no such set-up: they are left out, and the true intervals are longer.", s.Failed, s.Trials)))
	}
}

// asFine writes an amount of a size in the job's own units, to the decimals of
// the uncertainty worked out.
func (p *printer) asFine(s *simulate.Size, x float64) string {
	first, _ := p.both(x, adjust.Coverage95*s.Straight.U, s.Dimension)
	text, _, _ := strings.Cut(first, " ± ")
	return text
}

// The JSON forms: mm and degrees, as everywhere.
type (
	simulationJSON struct {
		Trials int                          `json:"trials"`
		Failed int                          `json:"failed"`
		Seed   uint64                       `json:"seed"`
		Sizes  map[string]simulatedSizeJSON `json:"sizes"`
	}
	simulatedSizeJSON struct {
		Mean   *float64 `json:"mean"`
		U      *float64 `json:"u"`
		Low    *float64 `json:"low"`
		High   *float64 `json:"high"`
		Agrees bool     `json:"agrees"`
	}
)

// WithSimulation adds simulated sizes to the JSON of a result.
func WithSimulation(s *simulate.Simulation) Addition {
	out := &simulationJSON{Trials: s.Trials, Failed: s.Failed, Seed: s.Seed, Sizes: map[string]simulatedSizeJSON{}}
	for i := range s.Sizes {
		size := &s.Sizes[i]
		show := func(x float64) *float64 { return number(natural(x, size.Dimension)) }
		low, high := size.Interval()
		out.Sizes[size.ID] = simulatedSizeJSON{
			Mean: show(size.Mean), U: show(size.U), Low: show(low), High: show(high), Agrees: remarkOn(size.Moved()) == agrees,
		}
	}
	return func(r *resultJSON) { r.Simulation = out }
}
