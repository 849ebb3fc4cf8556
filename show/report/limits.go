package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// Limits writes the limits of one hole or shaft as a machinist reads them. The
// size is that which was asked for, as it was written.
func Limits(w io.Writer, size unit.Quantity, code limits.Code, in limits.Interval, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.line("%s\n", p.paint(bold, fmt.Sprintf("%v %v", size, code)))
		p.table([][]string{limitsHeading, p.limitsRow(shaftOrHole(code)+" "+code.String(), in, false)})
		p.limitsNotes(in.Notes, in.Sources)
	})
}

// LimitsOfFit writes the limits of a hole and its shaft, and what clearance they
// have.
func LimitsOfFit(w io.Writer, size unit.Quantity, fit limits.Fit, pair limits.Pair, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.line("%s  %s\n", p.paint(bold, fmt.Sprintf("%v %v", size, fit)), kindWords[pair.Kind()])
		p.table([][]string{
			limitsHeading,
			p.limitsRow(strings.TrimSpace("hole "+pair.HoleCode), pair.Hole, fit.Inch()),
			p.limitsRow(strings.TrimSpace("shaft "+pair.ShaftCode), pair.Shaft, fit.Inch()),
			clearanceRow(pair),
		})
		if fit.Inch() {
			p.line("\n  %s", "The standard is in inches: the figures in mm are those, converted. Its letters and grades are not those of ISO 286.")
		}
		p.limitsNotes(pair.Notes, pair.Sources)
	})
}

var kindWords = map[limits.Kind]string{
	limits.Clearance:    "clearance fit: never tight",
	limits.Transition:   "transition fit: loose or tight, as the pieces turn out",
	limits.Interference: "interference fit: never loose",
}

var limitsHeading = []string{"", "mm", "in", "deviations"}

func shaftOrHole(code limits.Code) string {
	if code.Hole() {
		return "hole"
	}
	return "shaft"
}

func (p *printer) limitsRow(name string, in limits.Interval, inch bool) []string {
	for _, source := range in.Sources {
		if facts.FromMemory(source) {
			name = p.marked(name, source)
			break
		}
	}
	return []string{
		name, fromTo(in.Low, in.High), fineInches(in.Low) + " to " + fineInches(in.High),
		deviation(in.Lower, inch) + " to " + deviation(in.Upper, inch),
	}
}

// clearanceRow writes the clearance, or the interference where there is nothing
// else.
func clearanceRow(pair limits.Pair) []string {
	name, low, high := "clearance", pair.MinClearance, pair.MaxClearance
	switch pair.Kind() {
	case limits.Interference:
		name, low, high = "interference", -high, -low
	case limits.Transition:
		name = "clearance, interference negative"
	}
	return []string{name, fromTo(low, high), fineInches(low) + " to " + fineInches(high), ""}
}

// fromTo writes two tabled lengths to a thousandth, or both with as many
// decimals as the table has: half a micron or a tenth of a thou is not lost.
func fromTo(low, high float64) string {
	decimals := 3
	for _, mm := range []float64{low, high} {
		exact, _ := unit.WithUncertainty(mm, 0)
		_, fraction, _ := strings.Cut(exact, ".")
		decimals = max(decimals, len(fraction))
	}
	return decimal(low, decimals) + " to " + decimal(high, decimals)
}

// decimal writes a number with this many decimals: those at which an
// uncertainty of ten units in the last place has two digits.
func decimal(x float64, decimals int) string {
	text, _ := unit.WithUncertainty(x, math.Pow10(1-decimals))
	return text
}

// fineInches writes a length in inches to a hundredth of a thou.
func fineInches(mm float64) string { return decimal(mm/unit.MillimetresPerInch, 5) }

// deviation writes a deviation with its sign, in µm or in thou.
func deviation(mm float64, inch bool) string {
	x, small := mm*1000, "µm"
	if inch {
		x, small = x/unit.MillimetresPerInch, "thou"
	}
	text, _ := unit.WithUncertainty(math.Round(x*1e4)/1e4, 0)
	if x > 0 {
		text = "+" + text
	}
	return text + " " + small
}

func (p *printer) limitsNotes(notes, sources []string) {
	for _, note := range notes {
		p.line("")
		p.paragraph("", note)
	}
	var list sourceList
	for _, source := range sources {
		list.add("limits", source)
	}
	p.sources(list)
}

// The JSON form of limits, in mm.
type (
	limitsJSON struct {
		Hole      *intervalJSON  `json:"hole,omitempty"`
		Shaft     *intervalJSON  `json:"shaft,omitempty"`
		Clearance *clearanceJSON `json:"clearance,omitempty"`
	}
	intervalJSON struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
	}
	clearanceJSON struct {
		Min float64 `json:"min"`
		Max float64 `json:"max"`
	}
)

// LimitsJSON writes the limits of one hole or shaft as one JSON object.
func LimitsJSON(w io.Writer, code limits.Code, in limits.Interval) error {
	interval := &intervalJSON{in.Low, in.High}
	if code.Hole() {
		return encode(w, limitsJSON{Hole: interval})
	}
	return encode(w, limitsJSON{Shaft: interval})
}

// LimitsOfFitJSON writes the limits of a hole and its shaft as one JSON object;
// an interference is a negative clearance.
func LimitsOfFitJSON(w io.Writer, pair limits.Pair) error {
	return encode(w, limitsJSON{
		Hole:      &intervalJSON{pair.Hole.Low, pair.Hole.High},
		Shaft:     &intervalJSON{pair.Shaft.Low, pair.Shaft.High},
		Clearance: &clearanceJSON{pair.MinClearance, pair.MaxClearance},
	})
}
