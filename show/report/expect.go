package report

import (
	"io"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/show/say"
)

type (
	expectedJSON struct {
		Job          string                      `json:"job"`
		Sizes        map[string]expectedSizeJSON `json:"sizes"`
		Readings     []expectedReadingJSON       `json:"readings"`
		Unchecked    []string                    `json:"unchecked"`
		Undetermined []undeterminedJSON          `json:"undetermined"`
		Warnings     []warningJSON               `json:"warnings"`
	}
	expectedSizeJSON struct {
		Unit       string   `json:"unit"`
		About      *float64 `json:"about"`
		Guessed    bool     `json:"guessed"` // by the program: nothing tells it yet
		U          *float64 `json:"u"`
		Half       *float64 `json:"U"` // 95 %
		Determined bool     `json:"determined"`
		Readings   int      `json:"readings"`
		Checked    string   `json:"checked"`
	}
	expectedReadingJSON struct {
		ID                string   `json:"id"`
		Planned           bool     `json:"planned"`
		Shows             *float64 `json:"shows"`
		Redundancy        float64  `json:"redundancy"`
		SmallestCatchable *float64 `json:"smallest_catchable"`
		Checked           string   `json:"checked"`
	}
)

// ExpectedJSON writes what to expect as one JSON object.
func ExpectedJSON(w io.Writer, e *advise.Expectation) error {
	r := e.Result
	out := expectedJSON{
		Job: r.Job.Name, Sizes: map[string]expectedSizeJSON{}, Readings: []expectedReadingJSON{},
		Unchecked: append([]string{}, e.Unseen...), Undetermined: []undeterminedJSON{}, Warnings: []warningJSON{},
	}
	for _, s := range r.Sizes {
		show := func(x float64) *float64 { return numberIf(s.Determined, natural(x, s.Dimension)) }
		out.Sizes[s.ID] = expectedSizeJSON{
			Unit: unitName(s.Dimension), About: show(s.Value), Guessed: slices.Contains(e.Unknown, s.ID),
			U: show(s.U), Half: show(adjust.Coverage95 * s.U), Determined: s.Determined, Readings: s.Readings, Checked: say.CheckWords[s.Check],
		}
	}
	for _, v := range r.Readings {
		out.Readings = append(out.Readings, expectedReading(e, v))
	}
	for _, u := range r.Undetermined {
		out.Undetermined = append(out.Undetermined, undeterminedJSON(u))
	}
	for _, warning := range r.Warnings {
		out.Warnings = append(out.Warnings, warningToJSON(warning, r.Job))
	}
	return encode(w, out)
}

func expectedReading(e *advise.Expectation, v adjust.Value) expectedReadingJSON {
	out := expectedReadingJSON{
		ID: v.ID, Planned: slices.Contains(e.Planned, v.ID), Shows: number(natural(v.Predicted[0], v.Dimension)),
		Redundancy: v.Redundancy, SmallestCatchable: number(natural(v.SmallestCatchable, v.Dimension)),
		Checked: say.CheckWords[e.Result.Checked(v.ID)],
	}
	if v.Pair || v.Unknown {
		out.Shows = number(math.NaN())
	}
	return out
}
