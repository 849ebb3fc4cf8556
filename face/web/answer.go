package web

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// figure is a size as it is shown.
type figure struct {
	Name, Value, Half string // Half is the half width of its 95 % interval
	Found             bool
	Alone             bool // nothing checks it
}

// figures are the sizes of a job so far.
func (v *jobView) figures() []figure {
	if v.Found == nil {
		return nil
	}
	var list []figure
	for _, size := range v.Found.Result.Sizes {
		f := figure{Name: size.ID, Found: size.Determined, Value: "not found yet"}
		if size.Determined {
			f.Value, f.Half = shown(size.Value, adjust.Coverage95*size.U, size.Dimension, v.worked.view().Unit())
			f.Alone = size.U > 0 && size.Check != adjust.OthersCheck
		}
		list = append(list, f)
	}
	return list
}

// shown writes a value and the half width U of its interval, in mm or inches,
// degrees, or as plain numbers.
func shown(value, U float64, d unit.Dimension, in unit.Unit) (text, half string) {
	switch {
	case d == unit.Angle:
		const degree = math.Pi / 180
		text, half = unit.WithUncertainty(value/degree, U/degree)
		return text + "°", half + "°"
	case d == unit.Length && in == unit.Inch:
		text, half = unit.WithUncertainty(value/unit.MillimetresPerInch, U/unit.MillimetresPerInch)
		return text + " in", half
	case d == unit.Length:
		text, half = unit.WithUncertainty(value, U)
		return text + " mm", half
	}
	return unit.WithUncertainty(value, U)
}

// suspects are the ids of the readings that may be wrong, each once.
func (v *jobView) suspects() []string {
	if v.Found == nil {
		return nil
	}
	var list []string
	seen := map[string]bool{}
	for _, r := range v.Found.Result.Readings {
		if r.Suspect && !seen[r.ID] {
			seen[r.ID] = true
			list = append(list, r.ID)
		}
	}
	return list
}

// inShort is the answer in one line.
func (v *jobView) inShort() string {
	if v.Found == nil {
		if v.worked.Job != nil && len(v.worked.Job.Readings) == 0 {
			return "Nothing read yet"
		}
		return "Cannot be worked out yet"
	}
	found, all := 0, v.figures()
	for _, f := range all {
		if f.Found {
			found++
		}
	}
	text := fmt.Sprintf("%d of %d sizes found", found, len(all))
	if n := len(v.suspects()); n > 0 {
		text += fmt.Sprintf(", %d suspect", n)
	}
	return text
}

// wrong is something wrong in what the user gave.
func wrong(format string, args ...any) error {
	return trade.Faults{{Text: fmt.Sprintf(format, args...)}}
}
