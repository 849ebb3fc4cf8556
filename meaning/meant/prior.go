package meant

import "codeberg.org/oddleg/oddleg/job/trade"

// priorWeight is how many sizes the prior shares count for.
const priorWeight = 4

// The prior share of sizes that are round in the system of the machine's
// country, in the other system, and in none; and of the inch sizes that are
// fractions. Our choice, no source.
const (
	homeShare     = 0.72
	foreignShare  = 0.10
	noneShare     = 0.18
	fractionsPart = 0.62 / 0.72
)

// always is the year before which a country that still does builds in inches.
const always = 9999

// inchUntil is the year until which a country built machines in inches, by its
// two letters: the year its industry began to change over (from memory).
// Machines built later may be of either system.
var inchUntil = map[string]int{
	"GB": 1965, "IE": 1965, "IN": 1956, "ZA": 1967, "NZ": 1969, "AU": 1970, "CA": 1970, "US": always,
}

// metricFrom is the year from which a country built in millimetres (from
// memory); 0 where that was before any machine that is mended now.
var metricFrom = map[string]int{
	"AT": 0, "BE": 0, "BG": 0, "BR": 0, "CH": 0, "CZ": 0, "CS": 0, "DD": 0, "DE": 0, "DK": 0, "ES": 0, "FI": 0, "FR": 0, "HU": 0,
	"IT": 0, "NL": 0, "NO": 0, "PL": 0, "PT": 0, "RO": 0, "SE": 0, "YU": 0,
	"CN": 1959, "JP": 1950, "RU": 1925, "SU": 1925,
}

// priorOf returns the Dirichlet prior of the shares for a machine. A year that
// is not known counts as one before any change; where the country does not tell,
// inches and millimetres are even.
func priorOf(m trade.Machine) [systems]float64 {
	country := CountryCode(m.Country)
	if until, ok := inchUntil[country]; ok && m.Built < until {
		return dirichlet(homeShare)
	}
	if from, ok := metricFrom[country]; ok && (m.Built == 0 || m.Built >= from) {
		return dirichlet(foreignShare)
	}
	return dirichlet((homeShare + foreignShare) / 2)
}

// dirichlet returns the prior for a share of inch sizes.
func dirichlet(inches float64) [systems]float64 {
	var p [systems]float64
	p[fractions] = priorWeight * inches * fractionsPart
	p[decimals] = priorWeight*inches - p[fractions]
	p[metric] = priorWeight * (1 - noneShare - inches)
	p[none] = priorWeight * noneShare
	return p
}
