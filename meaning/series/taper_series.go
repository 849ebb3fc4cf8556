package series

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// taperShares says how common the families of tapers are in each trade: our
// choice, no source.
var taperShares = map[string][trades]float64{
	"Morse":            {0.38, 0.38, 0.27, 0.40},
	"metric 1:20":      {0.01, 0.02, 0.01, 0.10},
	"Jarno":            {0.02, 0.02, 0.08, 0.005},
	"Brown and Sharpe": {0.08, 0.07, 0.14, 0.02},
	"Jacobs":           {0.08, 0.10, 0.10, 0.06},
	"7/24 steep":       {0.03, 0.06, 0.07, 0.08},
	"taper pin inch":   {0.06, 0.05, 0.06, 0.005},
	"taper pin metric": {0.005, 0.01, 0.005, 0.06},
	ratioFamily:        {0.06, 0.07, 0.04, 0.13},
	footFamily:         {0.14, 0.10, 0.10, 0.005},
	degreeFamily:       {0.08, 0.08, 0.08, 0.10},
	noTaper:            {0.05, 0.05, 0.05, 0.05},
}

// The families of tapers that are round without being named.
const (
	ratioFamily  = "1:n"
	footFamily   = "in/ft"
	degreeFamily = "degrees"
	noTaper      = "none"
)

// The round tapers: ratios (those of ISO 1119 and a few more, from memory),
// inches per foot, and half angles in degrees.
var (
	ratios  = []float64{3, 4, 5, 6, 7, 8, 10, 12, 15, 16, 20, 30, 50, 100}
	perFoot = []string{"1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "1", "1 1/4", "1 1/2", "2", "2 1/2", "3", "3 1/2", "4", "5", "6"}
)

// angleLevels are the half angles by coarseness, degrees instead of mm.
var angleLevels = levels([]float64{15, 5, 1, 0.5}, []float64{0.3, 0.3, 0.3, 0.1})

// The half angles considered, in degrees.
const (
	leastHalf, mostHalf = 0.25, 45.0
)

// taperHypothesis is a taper and how common it is.
type taperHypothesis struct {
	facts.Taper
	name  string
	prior float64
}

// taperHypotheses returns the named tapers and the round ones.
func taperHypotheses(m trade.Machine) []taperHypothesis {
	rows := facts.Tapers()
	weight := map[string]float64{}
	for _, t := range rows {
		weight[t.Family] += numberWeight(t)
	}
	var list []taperHypothesis
	for _, t := range rows {
		list = append(list, taperHypothesis{t, taperName(t), taperPrior(t.Family, m) * numberWeight(t) / weight[t.Family]})
	}
	return append(list, roundTapers(m)...)
}

// numberWeight says how common a number is beside the others of its family.
// Morse 7 and 4 1/2 are rarely met (our choice, no source).
func numberWeight(t facts.Taper) float64 {
	if t.Family == "Morse" && (t.Number == "7" || t.Number == "4 1/2") {
		return 0.1
	}
	return 1
}

// taperName is what a named taper is called in the trade.
func taperName(t facts.Taper) string {
	switch t.Family {
	case "metric 1:20":
		return "metric " + t.Number
	case "7/24 steep":
		return "7/24 No. " + t.Number
	}
	return strings.TrimSuffix(t.Family+" "+t.Number, " all")
}

func taperPrior(family string, m trade.Machine) float64 { return shareOn(m, taperShares[family]) }

// roundTapers returns the tapers that are a round ratio, a round number of
// inches per foot or a round half angle.
func roundTapers(m trade.Machine) []taperHypothesis {
	var list []taperHypothesis
	add := func(family, name string, half, prior float64, source string) {
		nowhere := math.NaN()
		list = append(list, taperHypothesis{facts.Taper{
			Family: family, HalfAngle: half, Large: nowhere, Small: nowhere, Length: nowhere, Source: source,
		}, name, prior})
	}
	for _, n := range ratios {
		add(ratioFamily, fmt.Sprintf("1:%g", n), math.Atan(1/(2*n)), taperPrior(ratioFamily, m)/float64(len(ratios)), "round ratios, ISO 1119 and custom, from memory")
	}
	for _, text := range perFoot {
		q, err := unit.ParseAngle(text + " in/ft")
		if err != nil {
			panic("series: a taper of the list cannot be read")
		}
		add(footFamily, text+" in/ft", q.Inside(), taperPrior(footFamily, m)/float64(len(perFoot)), "common practice, no source")
	}
	for i, l := range angleLevels {
		for n := 1.0; n*l.step <= mostHalf; n++ {
			half := n * l.step
			if i > 0 && math.Mod(half, angleLevels[i-1].step) == 0 {
				continue
			}
			add(degreeFamily, fmt.Sprintf("%g° half angle (%g° included)", half, 2*half), half*degree, taperPrior(degreeFamily, m)*l.share*l.per/mostHalf, "common practice, no source")
		}
	}
	return list
}
