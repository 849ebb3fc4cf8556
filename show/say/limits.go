package say

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// Limits says the limits of one hole or shaft. The size is that which was asked for,
// as it was written.
func Limits(size unit.Quantity, code limits.Code, in limits.Interval) *doc.Document {
	p := titled(fmt.Sprintf("%v %v", size, code))
	name := "shaft "
	if code.Hole() {
		name = "hole "
	}
	t := limitsTable()
	t.Add(limitsRow(name+code.String(), in, false))
	p.Add(t)
	p.limitsNotes(in.Notes, in.Sources)
	return &p.Document
}

// LimitsOfFit says the limits of a hole and its shaft, and what clearance they have.
func LimitsOfFit(size unit.Quantity, fit limits.Fit, pair limits.Pair) *doc.Document {
	p := &page{}
	p.Title = doc.Say("%v %v", size, fit)
	p.say("%s", kindWords[pair.Kind()])
	t := limitsTable()
	t.Space = doc.Apart
	t.Add(limitsRow(strings.TrimSpace("hole "+pair.HoleCode), pair.Hole, fit.Inch()))
	t.Add(limitsRow(strings.TrimSpace("shaft "+pair.ShaftCode), pair.Shaft, fit.Inch()))
	t.Add(clearanceRow(pair))
	p.Add(t)
	if fit.Inch() {
		p.apart("The standard is in inches: the figures in mm are those, converted. Its letters and grades are not those of ISO 286.")
	}
	p.limitsNotes(pair.Notes, pair.Sources)
	return &p.Document
}

var kindWords = map[limits.Kind]string{
	limits.Clearance:    "clearance fit: never tight",
	limits.Transition:   "transition fit: loose or tight, as the pieces turn out",
	limits.Interference: "interference fit: never loose",
}

func limitsTable() *doc.Table {
	return &doc.Table{Name: "limits", Columns: []doc.Column{{Name: "of"}, plain("mm"), plain("in"), plain("deviations")}}
}

func limitsRow(name string, in limits.Interval, inch bool) doc.Cells {
	of := doc.Plain(name)
	if i := slices.IndexFunc(in.Sources, facts.FromMemory); i >= 0 {
		of = marked(name, in.Sources[i])
	}
	return doc.Cells{
		"of": of, "mm": doc.Plain(tabled(in.Low, in.High)), "in": doc.Plain(fineInches(in.Low) + " to " + fineInches(in.High)),
		"deviations": doc.Plain(deviation(in.Lower, inch) + " to " + deviation(in.Upper, inch)),
	}
}

// clearanceRow is the clearance, or the interference where there is nothing else.
func clearanceRow(pair limits.Pair) doc.Cells {
	name, low, high := "clearance", pair.MinClearance, pair.MaxClearance
	switch pair.Kind() {
	case limits.Interference:
		name, low, high = "interference", -high, -low
	case limits.Transition:
		name = "clearance, interference negative"
	}
	return doc.Cells{"of": doc.Plain(name), "mm": doc.Plain(tabled(low, high)), "in": doc.Plain(fineInches(low) + " to " + fineInches(high))}
}

// tabled writes two tabled lengths in mm to a thousandth, or both with as many
// decimals as the table has: half a micron or a tenth of a thou is not lost.
func tabled(low, high float64) string {
	decimals := 3
	for _, mm := range []float64{low, high} {
		_, fraction, _ := strings.Cut(figure(mm), ".")
		decimals = max(decimals, len(fraction))
	}
	return decimal(low, decimals) + " to " + decimal(high, decimals)
}

// fineInches writes a length in inches to a hundredth of a thou.
func fineInches(mm float64) string { return decimal(mm/unit.MillimetresPerInch, 5) }

// deviation writes a deviation with its sign, in µm or in thou.
func deviation(mm float64, inch bool) string {
	x, small := mm*1000, "µm"
	if inch {
		x, small = x/unit.MillimetresPerInch, "thou"
	}
	text := figure(math.Round(x*1e4) / 1e4)
	if x > 0 {
		text = "+" + text
	}
	return text + " " + small
}

func (p *page) limitsNotes(notes, sources []string) {
	for _, note := range notes {
		p.apart("%s", note)
	}
	var list sourceList
	for _, source := range sources {
		list.add("limits", source)
	}
	p.sources(list)
}
