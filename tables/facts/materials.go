package facts

import (
	_ "embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed materials.csv
var materials string

// Material is one material by its British names, with its strength by
// condition and ruling section.
type Material struct {
	Name        string // "EN8 medium carbon"
	Family      string // "steel", "stainless", "cast iron", "bronze", "brass", "aluminium"
	EN          string // the wartime number "EN8"; empty where it has none
	BS          string // British Standard designation "080M40"; empty where it has none
	Equivalents []Equivalent
	strengths   []Strength
	generic     bool // stands for its family where a row is silent
}

// Equivalent is what another country's standards call about the same material.
// It is always approximate: limits of composition, sections and test pieces
// differ, and sources contradict each other.
type Equivalent struct {
	System string // "AISI/SAE", "DIN/EN", "W.Nr."
	Names  string // as the table has it: "1040 / 1045"
}

// equivalentColumns are the columns of the table that hold other systems' names.
var equivalentColumns = []struct{ column, system string }{
	{"aisi_sae", "AISI/SAE"},
	{"din_en_name", "DIN/EN"},
	{"werkstoff_no", "W.Nr."},
}

// Short returns what a drawing calls the material: its EN number, else the last
// word of its British designation, else its name. An S275JR is known by the
// name of the standard now in force.
func (m Material) Short() string {
	switch {
	case m.EN != "":
		return m.EN
	case m.coded() != "":
		return m.coded()
	}
	return m.Name
}

// coded returns the word of the name that is a designation: "S275JR", "CZ121".
func (m Material) coded() string {
	for _, word := range strings.Fields(m.Name) {
		if isCode(word) {
			return word
		}
	}
	return ""
}

// Strengths returns what the table has of the material, in its order. A row that
// only names letters of BS 970 is one for each letter.
func (m Material) Strengths() []Strength { return slices.Clone(m.strengths) }

var readMaterials = sync.OnceValue(func() []Material {
	var list []Material
	for _, r := range rows(materials) {
		i := slices.IndexFunc(list, func(m Material) bool {
			return m.Name == r["material"] && m.EN == r["en_number"] && m.BS == r["bs_designation"]
		})
		if i < 0 {
			i = len(list)
			list = append(list, Material{
				Name: r["material"], Family: r["family"], EN: r["en_number"], BS: r["bs_designation"],
				generic: strings.HasSuffix(r["material"], "(generic)"),
			})
		}
		list[i].addEquivalents(r)
		list[i].strengths = append(list[i].strengths, r.strength().byLetters()...)
	}
	for i := range list {
		fillElastic(list, i)
	}
	return list
})

// addEquivalents adds the names of a row that the material does not have yet:
// two pages may name different ones.
func (m *Material) addEquivalents(r row) {
	for _, c := range equivalentColumns {
		e := Equivalent{System: c.system, Names: r[c.column]}
		if e.Names != "" && !slices.Contains(m.Equivalents, e) {
			m.Equivalents = append(m.Equivalents, e)
		}
	}
}

func (r row) strength() Strength {
	s := Strength{
		Condition: r["condition"], TensileMin: r.optional("tensile_min_MPa"), TensileMax: r.optional("tensile_max_MPa"),
		Yield: r.optional("yield_or_proof_min_MPa"), Elongation: r["elongation_min_pct"], Hardness: r["hardness"],
		CTE: r.optional("cte_1e-6_per_K") / 1e6, Density: r.optional("density_kg_m3"),
		Source: r["source"], Provenance: r["provenance"], Note: r["note"],
	}
	s.Over, s.To = section(r["section_mm"])
	s.ELow, s.EHigh = span(r["E_GPa"])
	s.ELow, s.EHigh = gigapascal*s.ELow, gigapascal*s.EHigh
	return s
}

// gigapascal is in MPa.
const gigapascal = 1000

// section reads a limiting ruling section: "63-76" is over 63 up to 76 mm, "65"
// up to 65 mm, and nothing written is any.
func section(text string) (over, to float64) {
	low, high := span(text)
	switch {
	case text == "":
		return 0, math.Inf(1)
	case low == high:
		return 0, high
	}
	return low, high
}

// span reads "78-103" or "97", NaN twice where nothing is written.
func span(text string) (low, high float64) {
	if text == "" {
		return math.NaN(), math.NaN()
	}
	first, second, ranged := strings.Cut(text, "-")
	if !ranged {
		second = first
	}
	low, err := strconv.ParseFloat(first, 64)
	high, other := strconv.ParseFloat(second, 64)
	if err != nil || other != nil {
		panic("facts: a cell of the materials is no number and no range")
	}
	return low, high
}

// Materials returns every material of the table, kin beside kin.
func Materials() []Material { return slices.Clone(readMaterials()) }
