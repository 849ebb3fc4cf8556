package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// The JSON form of materials: MPa, mm, 1/K, kg/m³; null for what is not tabled.
type (
	materialJSON struct {
		Name        string           `json:"name"`
		Family      string           `json:"family"`
		EN          string           `json:"en"`
		BS          string           `json:"bs"`
		FoundBy     string           `json:"found_by_equivalent,omitempty"`
		Equivalents []equivalentJSON `json:"equivalents"`
		Strengths   []strengthJSON   `json:"strengths"`
	}
	oneMaterialJSON struct {
		materialJSON
		Condition string         `json:"condition"`
		SectionMM *float64       `json:"section_mm"`
		Holds     strengthJSON   `json:"holds"`
		Pairs     []wearPairJSON `json:"wear_pairs"`
		Cautions  []cautionJSON  `json:"cautions"`
	}
	equivalentJSON struct {
		System      string `json:"system"`
		Names       string `json:"names"`
		Approximate bool   `json:"approximate"`
	}
	strengthJSON struct {
		Condition  string   `json:"condition"`
		OverMM     float64  `json:"over_mm"`
		ToMM       *float64 `json:"to_mm"`
		TensileMin *float64 `json:"tensile_min_mpa"`
		TensileMax *float64 `json:"tensile_max_mpa"`
		Yield      *float64 `json:"yield_mpa"`
		Elongation string   `json:"elongation_percent"`
		Hardness   string   `json:"hardness"`
		ELow       *float64 `json:"e_low_mpa"`
		EHigh      *float64 `json:"e_high_mpa"`
		CTE        *float64 `json:"expansion_per_k"`
		Density    *float64 `json:"density_kg_m3"`
		Borrowed   string   `json:"elastic_of,omitempty"`
		Source     string   `json:"source"`
		Provenance string   `json:"provenance"`
		Note       string   `json:"note,omitempty"`
		Doubts     []string `json:"doubts,omitempty"`
	}
	wearPairJSON struct {
		As      string `json:"as"`
		Against string `json:"against"`
		Verdict string `json:"verdict"`
		Why     string `json:"why"`
		Source  string `json:"source"`
	}
	cautionJSON struct {
		About  string `json:"about"`
		Text   string `json:"text"`
		Source string `json:"source"`
	}
)

// MaterialsJSON writes the materials of the tables as one JSON object.
func MaterialsJSON(w io.Writer, materials []facts.Material) error {
	list := make([]materialJSON, len(materials))
	for i, m := range materials {
		list[i] = materialToJSON(m)
	}
	return encode(w, map[string]any{"materials": list})
}

// MaterialJSON writes what Material does as one JSON object.
func MaterialJSON(w io.Writer, stock facts.Stock, section float64, holds facts.Strength) error {
	out := oneMaterialJSON{
		materialJSON: materialToJSON(stock.Material), Condition: stock.Condition, SectionMM: numberIf(section > 0, section),
		Holds: strengthToJSON(holds), Pairs: []wearPairJSON{}, Cautions: []cautionJSON{},
	}
	out.FoundBy = stock.Equivalent
	for _, p := range stock.WearPairs() {
		out.Pairs = append(out.Pairs, wearPairJSON{p.One, p.Other, p.Verdict, p.Why, p.Source})
	}
	for _, c := range stock.Cautions() {
		out.Cautions = append(out.Cautions, cautionJSON{c.About, c.Text, c.Source})
	}
	return encode(w, out)
}

func materialToJSON(m facts.Material) materialJSON {
	out := materialJSON{Name: m.Name, Family: m.Family, EN: m.EN, BS: m.BS, Equivalents: []equivalentJSON{}}
	for _, e := range m.Equivalents {
		out.Equivalents = append(out.Equivalents, equivalentJSON{e.System, e.Names, true})
	}
	for _, s := range m.Strengths() {
		out.Strengths = append(out.Strengths, strengthToJSON(s))
	}
	return out
}

func strengthToJSON(s facts.Strength) strengthJSON {
	return strengthJSON{
		Condition: s.Condition, OverMM: s.Over, ToMM: number(s.To),
		TensileMin: number(s.TensileMin), TensileMax: number(s.TensileMax), Yield: number(s.Yield),
		Elongation: s.Elongation, Hardness: s.Hardness, ELow: number(s.ELow), EHigh: number(s.EHigh),
		CTE: number(s.CTE), Density: number(s.Density), Borrowed: s.Borrowed,
		Source: s.Source, Provenance: s.Provenance, Note: s.Note, Doubts: s.Doubts,
	}
}
