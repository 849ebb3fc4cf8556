package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Working writes how the sizes came about: every reading's formula with its
// numbers put in, what each instrument and gauge piece turned out to be, and
// where the variance of each size comes from.
func Working(w io.Writer, r *adjust.Result, style Style) error {
	p := &printer{w: w, r: r, units: r.Job.Shown(), style: style}
	return p.report(p.formulas, p.relations, p.kit, p.shares)
}

// formulas writes every reading with its numbers put in.
func (p *printer) formulas() {
	p.heading("Readings, worked")
	for _, w := range p.r.Workings() {
		p.worked(w)
	}
}

// worked writes one reading with its numbers put in.
func (p *printer) worked(w adjust.Working) {
	p.line("\n  %s  %s%s", p.paint(bold, w.Reading.ID), w.Reading.By, remark(w))
	p.line("    m = %s", strings.TrimPrefix(w.Formula, "m = "))
	if !w.Touch {
		p.line("      = %s", strings.TrimPrefix(w.Numbers(p.bare), "m = "))
		p.line("      = %s%s", p.fine(w.Model, w.Dimension), p.extras(w))
	}
	p.values(w)
}

// bare writes a number to go into a formula: lengths in the job's units
// without their name, to one place more than elsewhere.
func (p *printer) bare(x float64, d unit.Dimension) string {
	return strings.TrimSuffix(strings.TrimSuffix(p.fine(x, d), " mm"), " in")
}

// fine writes an amount to one place more than elsewhere, so that the working
// can be followed to the last place of the reading.
func (p *printer) fine(x float64, d unit.Dimension) string {
	switch {
	case d == unit.Angle:
		return fmt.Sprintf("%.4f°", x*180/math.Pi)
	case d == unit.Number:
		return p.amount(x, d)
	case p.units == unit.Inch:
		return fmt.Sprintf("%.5f in", x/unit.MillimetresPerInch)
	}
	return fmt.Sprintf("%.4f mm", x)
}

func remark(w adjust.Working) string {
	if !w.Used {
		return "  (set aside)"
	}
	if w.Reading.Say != "" {
		return "  " + w.Reading.Say
	}
	return ""
}

// extras writes what the instrument's zero and the seating add.
func (p *printer) extras(w adjust.Working) string {
	var b strings.Builder
	total := w.Model
	for _, extra := range []struct {
		name  string
		value float64
	}{{"zero of " + w.Reading.With, w.Zero}, {"seating", w.Feel}} {
		if extra.value != 0 {
			total += extra.value
			fmt.Fprintf(&b, ", with the %s %s", extra.name, p.signed(extra.value, w.Dimension))
		}
	}
	if b.Len() > 0 {
		b.WriteString(": " + p.fine(total, w.Dimension))
	}
	return b.String()
}

// signed writes a fine amount with its sign.
func (p *printer) signed(x float64, d unit.Dimension) string {
	if text := p.fine(x, d); strings.HasPrefix(text, "-") {
		return text
	}
	return "+" + p.fine(x, d)
}

// values writes every value of a reading with its residual.
func (p *printer) values(w adjust.Working) {
	for _, v := range p.r.Readings {
		if v.ID != w.Reading.ID {
			continue
		}
		p.line("    saw %s: residual %s%s", p.seen(w.Reading, v), p.signed(v.Residual, v.Dimension), p.standing(v))
	}
}

func (p *printer) seen(r *trade.Reading, v adjust.Value) string {
	if r.GoNoGo() {
		return "between the piece that goes and the one that stops, about " + p.amount(v.Saw[0], v.Dimension)
	}
	return p.saw(v)
}

// standing says how far out a value is and how large a slip would be seen.
func (p *printer) standing(v adjust.Value) string {
	switch {
	case v.SetAside:
		return ", set aside"
	case math.IsInf(v.SmallestCatchable, 1):
		return "; nothing checks it"
	}
	return fmt.Sprintf(", %.1f standard deviations; a slip of %s would be seen", v.Normalised, p.amount(v.SmallestCatchable, v.Dimension))
}

// relations writes how the inexact relations stand.
func (p *printer) relations() {
	var lines []string
	for _, t := range p.r.Relations {
		r := p.r.Job.Relations[t.Index]
		lines = append(lines, fmt.Sprintf("%s = %s: %.1f standard deviations", r.That, r.Is, t.Normalised))
	}
	p.list("Relations", lines)
}

// kit writes what each instrument and gauge piece turned out to be.
func (p *printer) kit() {
	p.heading("The kit, as the readings have it")
	rows := [][]string{{"", "turned out", "± 95 %", ""}}
	for _, z := range p.r.Instruments {
		rows = append(rows, []string{z.ID, "zero " + p.signed(z.Value, z.Dimension), p.fine(adjust.Coverage95*z.U, z.Dimension), p.kitRemark(z.Test)})
	}
	for _, piece := range p.r.Pieces {
		uncertainty := p.fine(adjust.Coverage95*piece.U, unit.Length)
		if piece.Exact {
			uncertainty = "taken as exact"
		}
		rows = append(rows, []string{piece.ID, p.fine(piece.Value, unit.Length), uncertainty, p.kitRemark(piece.Test)})
	}
	p.table(rows)
}

func (p *printer) kitRemark(t adjust.Test) string {
	if t.Suspect {
		return p.paint(red, "suspect")
	}
	return ""
}

// shares writes where each size's variance comes from.
func (p *printer) shares() {
	p.heading("Where the uncertainty of each size comes from (shares of its variance)")
	for _, s := range p.r.Sizes {
		shares := p.r.Shares(s.ID)
		if len(shares) == 0 {
			continue
		}
		var parts []string
		for _, share := range shares {
			if share.Part < 0.005 && len(parts) > 0 {
				break
			}
			parts = append(parts, fmt.Sprintf("%s %.0f %%", p.shareName(share.Source), 100*share.Part))
		}
		p.line("  %s: %s", p.paint(bold, s.ID), strings.Join(parts, ", "))
	}
}

func (p *printer) shareName(s adjust.Source) string {
	switch s.Kind {
	case adjust.FromReading:
		return "reading " + s.ID
	case adjust.FromInstrument:
		return "zero of " + s.ID
	}
	return p.sourceName(s)
}
