package series

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
)

// trade is where and when a machine was built, as far as it tells which threads
// and gears to expect.
type nation uint8

const (
	britishOld nation = iota // British before the Unified threads came
	britishUnified
	american
	metric
	trades
)

// The years in which British practice changed: the Unified threads were agreed
// in November 1948; industry was told to go metric in 1965, and by 1970 did.
const (
	unifiedCame = 1949
	metricCame  = 1970
)

// countries says whose practice a country followed, by its two letters.
var countries = map[nation][]string{
	britishOld: {"GB", "IE", "AU", "NZ", "IN", "ZA", "HK"},
	american:   {"US", "CA"},
	metric: {
		"AT", "BE", "BG", "BR", "CH", "CN", "CS", "CZ", "DD", "DE", "DK", "ES", "FI", "FR", "HU", "IT", "JP", "KR", "NL", "NO",
		"PL", "PT", "RO", "RU", "SE", "SI", "SK", "SU", "TW", "YU",
	},
}

// practice returns how much each trade's practice counts for a machine. Where
// the country is not known inch and metric are even; known tells whether the
// country was understood, or none was given.
func practice(m trade.Machine) (mix [trades]float64, known bool) {
	country := meant.CountryCode(m.Country)
	switch {
	case country == "":
		return [trades]float64{0.15, 0.1, 0.25, 0.5}, true
	case slices.Contains(countries[american], country):
		return [trades]float64{american: 1}, true
	case slices.Contains(countries[metric], country):
		return [trades]float64{metric: 1}, true
	case !slices.Contains(countries[britishOld], country):
		return [trades]float64{0.15, 0.1, 0.25, 0.5}, false
	case m.Built == 0:
		return [trades]float64{britishOld: 0.5, britishUnified: 0.3, metric: 0.2}, true
	case m.Built < unifiedCame:
		return [trades]float64{britishOld: 1}, true
	case m.Built < metricCame:
		return [trades]float64{britishUnified: 1}, true
	}
	return [trades]float64{britishUnified: 0.4, metric: 0.6}, true
}

// special is the family of threads that no series has.
const special = "special"

// familyShares says how common the families of threads are in each trade: our
// choice, no source. American National threads count as the Unified threads of
// the same sizes.
var familyShares = map[string][trades]float64{
	"BSW":      {0.36, 0.22, 0.010, 0.020},
	"BSF":      {0.20, 0.17, 0.003, 0.003},
	"BA":       {0.12, 0.11, 0.005, 0.005},
	"BSB":      {0.04, 0.03, 0.002, 0.001},
	"BSC":      {0.04, 0.03, 0.002, 0.002},
	"BSP-G":    {0.06, 0.05, 0.004, 0.060},
	"BSPT-R":   {0.03, 0.03, 0.002, 0.020},
	"UNC":      {0.02, 0.11, 0.410, 0.010},
	"UNF":      {0.02, 0.11, 0.250, 0.010},
	"UNEF":     {0.002, 0.005, 0.040, 0.002},
	"NPT":      {0.002, 0.005, 0.070, 0.003},
	"Acme":     {0.03, 0.03, 0.070, 0.003},
	"Tr":       {0.003, 0.003, 0.003, 0.080},
	"M-coarse": {0.01, 0.03, 0.030, 0.500},
	"M-fine":   {0.005, 0.01, 0.010, 0.200},
	special:    {0.05, 0.05, 0.050, 0.050},
}

// introduced has the years in which families came into use, from memory, and
// tooEarly what a family's share falls by before its year: screws are renewed.
var introduced = map[string]int{"BSF": 1908, "BA": 1884, "BSC": 1902, "UNEF": 1930}

const tooEarly = 0.1

// shareOn returns how common a thing is on a machine, by its shares in each
// trade.
func shareOn(m trade.Machine, shares [trades]float64) float64 {
	mix, _ := practice(m)
	sum := 0.0
	for t, weight := range mix {
		sum += weight * shares[t]
	}
	return sum
}

// familyPrior returns how common a family of threads is on a machine.
func familyPrior(family string, m trade.Machine) float64 {
	share := shareOn(m, familyShares[family])
	if m.Built != 0 && m.Built < introduced[family] {
		share *= tooEarly
	}
	return share
}

// choiceWeights says how common a row is beside the others of its family, by
// the choice that its standard makes of it: our choice of figures, no source.
var choiceWeights = map[string]float64{
	"":                                 1,
	"first":                            1,
	"second":                           0.5,
	"third":                            0.15,
	"alternative":                      0.5,
	"bottom bracket":                   0.3,
	"first diameter, preferred pitch":  1,
	"second diameter, preferred pitch": 0.6,
	"first diameter, other pitch":      0.3,
	"second diameter, other pitch":     0.2,
	"old DIN 103 pitch":                0.5,
}
