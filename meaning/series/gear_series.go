package series

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// pitchOfTeeth is one module or diametral pitch of the standard series.
type pitchOfTeeth struct {
	name   string
	family string
	module float64 // mm
	share  float64 // among all on this machine
	source string
}

// The series of tooth sizes. The second choices count half.
var (
	modules = toothSeries{
		family: "module", source: "ISO 54 from 1 mm up, DIN 780 below; from memory",
		first: []float64{
			0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50,
		},
		second: []float64{
			0.35, 0.45, 0.55, 0.7, 0.75, 0.9, 1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7, 9, 11, 14, 18, 22, 28, 36, 45,
		},
		trades: [trades]float64{0.04, 0.1, 0.04, 0.95},
	}
	diametral = toothSeries{
		family: "DP", source: "diametral pitches of ANSI B6.1 and others customary in the trade; from memory",
		first: []float64{
			1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64, 80, 96, 120,
		},
		second: []float64{
			1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 7, 9, 11, 14, 18, 22, 26, 28, 30, 36, 72,
		},
		trades: [trades]float64{0.96, 0.9, 0.96, 0.05},
	}
)

type toothSeries struct {
	family        string
	first, second []float64
	source        string
	trades        [trades]float64
}

const secondChoice = 0.5

// toothSizes returns both series with their shares on a machine.
func toothSizes(m trade.Machine) []pitchOfTeeth {
	var list []pitchOfTeeth
	for _, s := range []toothSeries{modules, diametral} {
		share := shareOn(m, s.trades) / (float64(len(s.first)) + secondChoice*float64(len(s.second)))
		for _, x := range s.first {
			list = append(list, s.size(x, share))
		}
		for _, x := range s.second {
			list = append(list, s.size(x, secondChoice*share))
		}
	}
	return list
}

func (s toothSeries) size(x, share float64) pitchOfTeeth {
	if s.family == "DP" {
		return pitchOfTeeth{fmt.Sprintf("%g DP", x), s.family, inch / x, share, s.source}
	}
	return pitchOfTeeth{fmt.Sprintf("module %g", x), s.family, x, share, s.source}
}

// toothForm is a basic rack.
type toothForm struct {
	pressure float64 // rad
	addendum float64 // in modules
	name     string
	trades   [trades]float64
}

// toothForms says how common the basic racks are: 14½° was the rule in inch
// countries until about 1945 and 20° elsewhere; stub teeth have 20° and an
// addendum of 0.8 (our choice of shares, common practice, no source).
var toothForms = []toothForm{
	{20 * degree, 1, "20°", [trades]float64{0.30, 0.55, 0.40, 0.85}},
	{14.5 * degree, 1, "14.5°", [trades]float64{0.62, 0.38, 0.50, 0.10}},
	{20 * degree, 0.8, "20° stub", [trades]float64{0.08, 0.07, 0.10, 0.05}},
}
