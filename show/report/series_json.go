package report

import (
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// The JSON forms of what a thread, gear or taper was meant to be.
type (
	threadJSON struct {
		Designation string  `json:"designation"`
		Family      string  `json:"family"`
		MajorMM     float64 `json:"major_mm"`
		PitchMM     float64 `json:"pitch_mm"`
		AngleDeg    float64 `json:"angle_deg"`
		P           float64 `json:"p"`
		WearMM      float64 `json:"wear_mm"`
		Decided     bool    `json:"decided,omitempty"`
		Source      string  `json:"source"`
	}
	threadAnswerJSON struct {
		Candidates []threadJSON `json:"candidates"`
		Settle     string       `json:"settle"`
		Settled    bool         `json:"settled"`
		Hand       string       `json:"hand"`
		Warnings   []string     `json:"warnings"`
		Sheet      sheetJSON    `json:"sheet"`
	}
	sheetJSON struct {
		Of       string        `json:"of"`
		Basic    basicJSON     `json:"basic_mm"`
		Limits   []limitJSON   `json:"limits"`
		Tapping  []tappingJSON `json:"tapping"`
		Wires    *wiresJSON    `json:"wires"`
		Hexagons []hexagonJSON `json:"hexagons"`
	}
	basicJSON struct {
		Major      float64 `json:"major"`
		Effective  float64 `json:"effective"`
		MinorScrew float64 `json:"minor_screw"`
		MinorNut   float64 `json:"minor_nut"`
		Source     string  `json:"source"`
	}
	limitJSON struct {
		Class  string  `json:"class"`
		Of     string  `json:"of"`
		LowMM  float64 `json:"low_mm"`
		HighMM float64 `json:"high_mm"`
		Source string  `json:"source"`
	}
	tappingJSON struct {
		Of      string   `json:"hundred_percent_is"`
		Percent float64  `json:"percent"`
		HoleMM  float64  `json:"hole_mm"`
		Drill   string   `json:"drill,omitempty"`
		DrillMM *float64 `json:"drill_mm,omitempty"`
		Gives   *float64 `json:"drill_gives_percent,omitempty"`
		Source  string   `json:"source"`
	}
	wiresJSON struct {
		BestMM     float64  `json:"best_mm"`
		SmallestMM float64  `json:"smallest_mm"`
		LargestMM  float64  `json:"largest_mm"`
		OverMM     float64  `json:"over_mm"`
		Advice     []string `json:"advice"`
		Source     string   `json:"source"`
	}
	hexagonJSON struct {
		Family  string  `json:"family"`
		Part    string  `json:"part"`
		FlatsMM float64 `json:"flats_mm"`
		Source  string  `json:"source"`
	}
	gearJSON struct {
		Designation string  `json:"designation"`
		Family      string  `json:"family"`
		ModuleMM    float64 `json:"module_mm"`
		DP          float64 `json:"dp"`
		PressureDeg float64 `json:"pressure_angle_deg"`
		Addendum    float64 `json:"addendum"`
		Shift       float64 `json:"shift"`
		UShift      float64 `json:"u_shift"`
		PShifted    float64 `json:"p_shifted"`
		P           float64 `json:"p"`
		WearMM      float64 `json:"wear_mm"`
		Source      string  `json:"source"`
	}
	gearAnswerJSON struct {
		Candidates []gearJSON `json:"candidates"`
		Settle     string     `json:"settle"`
		Settled    bool       `json:"settled"`
		Warnings   []string   `json:"warnings"`
	}
	taperJSON struct {
		Designation  string   `json:"designation"`
		Family       string   `json:"family"`
		Number       string   `json:"number"`
		HalfAngleDeg float64  `json:"half_angle_deg"`
		InPerFoot    float64  `json:"in_per_foot"`
		LargeMM      *float64 `json:"large_mm"`
		GaugeLineMM  *float64 `json:"gauge_line_mm"`
		UGaugeLineMM *float64 `json:"u_gauge_line_mm"`
		P            float64  `json:"p"`
		Source       string   `json:"source"`
	}
	taperAnswerJSON struct {
		Candidates []taperJSON `json:"candidates"`
		None       float64     `json:"none"`
		Settle     string      `json:"settle"`
		Settled    bool        `json:"settled"`
		Warnings   []string    `json:"warnings"`
	}
)

const degreesPerRadian = 180 / math.Pi

// tabledDegrees gives an angle of a table back as the table has it: radians do
// not hold whole degrees exactly.
func tabledDegrees(rad float64) float64 { return math.Round(rad*degreesPerRadian*1e10) / 1e10 }

// ThreadJSON writes what a thread may have been as one JSON object, with the
// sheet of the likeliest.
func ThreadJSON(w io.Writer, a series.ThreadAnswer, left bool) error {
	return encode(w, threadAnswerJSON{
		Candidates: threadsToJSON(a.Candidates), Settle: say.Settling(a.Settle).Shown(unit.View{}), Settled: a.Settled, Hand: hand(left),
		Warnings: told(a.Warnings, unit.View{}), Sheet: sheetToJSON(series.ThreadSheet(a.Candidates[0].Thread)),
	})
}

func hand(left bool) string {
	if left {
		return "left"
	}
	return "right"
}

func threadsToJSON(candidates []series.Thread) []threadJSON {
	list := make([]threadJSON, len(candidates))
	for i, t := range candidates {
		list[i] = threadJSON{
			Designation: t.Designation, Family: t.Family, MajorMM: t.Major, PitchMM: t.Pitch,
			AngleDeg: tabledDegrees(t.Angle), P: t.P, WearMM: t.Wear, Decided: t.Decided, Source: t.Source,
		}
	}
	return list
}

// WithThreads adds the threads of a job to the JSON of its sizes.
func WithThreads(r *adjust.Result, threads []series.JobThread) Addition {
	return func(out *resultJSON) {
		out.Threads, out.SettleThreads = map[string][]threadJSON{}, map[string]string{}
		for _, t := range threads {
			out.Threads[t.ID], out.SettleThreads[t.ID] = threadsToJSON(t.Candidates), say.Settling(t.Settle).Shown(inJob(r.Job))
			for _, text := range t.Warnings {
				out.Warnings = append(out.Warnings, warningJSON{Text: "thread " + t.ID + ": " + text.Shown(inJob(r.Job))})
			}
		}
	}
}

func sheetToJSON(s series.Sheet) sheetJSON {
	out := sheetJSON{
		Of:     s.Thread.Designation,
		Basic:  basicJSON{s.Basic.Major, s.Basic.Effective, s.Basic.MinorScrew, s.Basic.MinorNut, s.Basic.Source},
		Limits: []limitJSON{}, Tapping: []tappingJSON{}, Hexagons: []hexagonJSON{},
	}
	for _, l := range s.Limits {
		out.Limits = append(out.Limits, limitJSON{l.Class, l.Of, l.Low, l.High, l.Source})
	}
	for _, t := range s.Tapping {
		hole := tappingJSON{Of: t.Of, Percent: t.Percent, HoleMM: t.Hole, Source: t.Source}
		if t.Drill != nil {
			hole.Drill, hole.DrillMM, hole.Gives = drillName(t.Drill), &t.Drill.Diameter, &t.Gives
		}
		out.Tapping = append(out.Tapping, hole)
	}
	if w := s.Wires; w != nil {
		out.Wires = &wiresJSON{w.Best, w.Smallest, w.Largest, w.Over, told(w.Advice, unit.View{}), w.Source}
	}
	for _, h := range s.Hexagons {
		out.Hexagons = append(out.Hexagons, hexagonJSON{h.Family, h.Part, h.Flats, h.Source})
	}
	return out
}

// drillName is what one asks for at the drill rack.
func drillName(d *facts.Drill) string {
	switch d.Series {
	case "metric":
		return d.Designation + " mm"
	case "fraction":
		return d.Designation + " in"
	}
	return d.Designation
}

// GearJSON writes what a gear may have been as one JSON object.
func GearJSON(w io.Writer, a series.GearAnswer) error {
	out := gearAnswerJSON{Candidates: []gearJSON{}, Settle: say.Settling(a.Settle).Shown(unit.View{}), Settled: a.Settled, Warnings: told(a.Warnings, unit.View{})}
	for _, g := range a.Candidates {
		out.Candidates = append(out.Candidates, gearJSON{
			Designation: g.Designation, Family: g.Family, ModuleMM: g.Module, DP: unit.MillimetresPerInch / g.Module,
			PressureDeg: g.Pressure * degreesPerRadian, Addendum: g.Addendum, Shift: g.Shift, UShift: g.UShift, PShifted: g.Shifted,
			P: g.P, WearMM: g.Wear, Source: g.Source,
		})
	}
	return encode(w, out)
}

// TaperJSON writes what a taper may have been as one JSON object.
func TaperJSON(w io.Writer, a series.TaperAnswer) error {
	out := taperAnswerJSON{Candidates: []taperJSON{}, None: a.None, Settle: say.Settling(a.Settle).Shown(unit.View{}), Settled: a.Settled, Warnings: told(a.Warnings, unit.View{})}
	for _, t := range a.Candidates {
		out.Candidates = append(out.Candidates, taperJSON{
			Designation: t.Designation, Family: t.Family, Number: t.Number, HalfAngleDeg: tabledDegrees(t.HalfAngle),
			InPerFoot: 24 * math.Tan(t.HalfAngle), LargeMM: number(t.Large), GaugeLineMM: number(t.GaugeLine),
			UGaugeLineMM: number(t.UGaugeLine), P: t.P, Source: t.Source,
		})
	}
	return encode(w, out)
}
