package report

import (
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The JSON forms of mating shapes. Lengths are in mm, angles in degrees.
type (
	matingJSON struct {
		Pair     string        `json:"pair"`
		Known    bool          `json:"known"`
		Open     []string      `json:"open,omitempty"`
		GoesIn   *bool         `json:"goes_in"`
		PGoesIn  *float64      `json:"p_goes_in"`
		Gap      *gapJSON      `json:"gap"`
		Faces    []faceJSON    `json:"faces,omitempty"`
		Bears    []bearingJSON `json:"bears,omitempty"`
		Slides   []slideJSON   `json:"slides,omitempty"`
		Twist    *float64      `json:"twist_deg"` // each way; 180 where it turns freely
		Entry    *entryJSON    `json:"entry,omitempty"`
		Warnings []string      `json:"warnings"`
	}
	gapJSON struct {
		Value float64  `json:"value"`
		P05   *float64 `json:"p05"`
		P50   *float64 `json:"p50"`
		P95   *float64 `json:"p95"`
	}
	faceJSON struct {
		Name    string     `json:"name"`
		Least   float64    `json:"least"`
		Most    float64    `json:"most"`
		LeastAt [2]float64 `json:"least_at"`
		MostAt  [2]float64 `json:"most_at"`
	}
	bearingJSON struct {
		Pressed   string  `json:"pressed"`
		On        string  `json:"on"`
		StandsOff float64 `json:"stands_off"`
		P         float64 `json:"p"`
	}
	slideJSON struct {
		Way string   `json:"way"`
		Far *float64 `json:"far"` // null where nothing stops it
	}
	entryJSON struct {
		Kind      string         `json:"kind"`
		Passes    bool           `json:"passes"`
		P         float64        `json:"p"`
		Attitudes []attitudeJSON `json:"attitudes"` // best first
	}
	attitudeJSON struct {
		Name  string    `json:"name"`
		Needs []float64 `json:"needs"`
		Spare float64   `json:"spare"`
	}
)

// matesJSON returns the answers by the ids of the mating shapes.
func matesJSON(answers []mating.Answer) map[string]matingJSON {
	list := map[string]matingJSON{}
	for i := range answers {
		list[answers[i].Mate.ID] = mateToJSON(&answers[i])
	}
	return list
}

func mateToJSON(a *mating.Answer) matingJSON {
	out := matingJSON{Pair: string(a.Pair.ID), Known: a.Known(), Open: a.Open, Warnings: listed(a.Warnings)}
	if !a.Known() {
		return out
	}
	goesIn := a.GoesIn()
	out.GoesIn, out.PGoesIn = &goesIn, number(a.Chance)
	out.Gap = &gapJSON{Value: a.Gap, P05: number(a.Spread[0]), P50: number(a.Spread[1]), P95: number(a.Spread[2])}
	if goesIn {
		out.Twist = number(natural(a.Twist, unit.Angle))
	}
	for _, f := range a.Faces {
		out.Faces = append(out.Faces, faceJSON{f.Name, f.Least, f.Most, placed(f.LeastAt), placed(f.MostAt)})
	}
	for _, b := range a.Bears {
		out.Bears = append(out.Bears, bearingJSON{b.Pressed, string(b.On), b.StandsOff, b.Chance})
	}
	for _, s := range a.Slides {
		out.Slides = append(out.Slides, slideJSON{s.Way, number(s.Far)})
	}
	out.Entry = passageToJSON(a.Entry)
	return out
}

func placed(p geom.Point) [2]float64 { return [2]float64{p.X, p.Y} }

func passageToJSON(e *mating.Passage) *entryJSON {
	if e == nil {
		return nil
	}
	out := &entryJSON{Kind: string(e.Kind.ID), Passes: e.Passes(), P: e.Chance}
	for _, a := range e.Attitudes {
		out.Attitudes = append(out.Attitudes, attitudeJSON(a))
	}
	return out
}
