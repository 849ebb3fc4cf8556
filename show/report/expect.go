package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
)

// Expected writes in words what to expect of readings that have not all been
// taken.
func Expected(w io.Writer, e *advise.Expectation, style Style) error {
	p := &forecast{printer: &printer{w: w, r: e.Result, units: e.Result.Job.Shown(), style: style}, e: e}
	return p.report(p.head, p.expected, p.places, p.hangsOn, p.unseen, p.undetermined, p.warnings)
}

// forecast writes the parts of an expectation.
type forecast struct {
	*printer
	e *advise.Expectation
}

// head says how much is planned.
func (p *forecast) head() {
	p.line("%s\n", p.paint(bold, p.r.Job.Name))
	switch planned, all := len(p.e.Planned), len(p.r.Job.Readings); {
	case all == 0:
		p.paragraph("", "There are no readings in this job, taken or planned.")
	case planned == 0:
		p.paragraph("", "Every reading has been taken: this is what they tell.")
	case planned == all:
		p.paragraph("", "Nothing has been read yet: this is what to expect of the readings planned.")
	default:
		p.paragraph("", fmt.Sprintf("%d of %d readings are still planned: this is what to expect of all together.", planned, all))
	}
	p.line("")
}

// expected writes what to expect of each size.
func (p *forecast) expected() {
	rows := [][]string{{"size", "about", "± 95 %", "readings", "checked by"}}
	for _, s := range p.r.Sizes {
		if !s.Determined {
			rows = append(rows, []string{s.ID, p.paint(yellow, "not found"), "", count(s.Readings), ""})
			continue
		}
		about := p.amount(s.Value, s.Dimension)
		if slices.Contains(p.e.Unknown, s.ID) {
			about = "?"
		}
		rows = append(rows, []string{s.ID, about, p.halfWidth(adjust.Coverage95*s.U, s.Dimension), count(s.Readings), p.checked(s)})
	}
	p.table(rows)
}

// checked says what would show a wrong reading of a size.
func (p *forecast) checked(s adjust.Size) string {
	switch {
	case s.U == 0:
		return "given"
	case s.Check != adjust.OthersCheck:
		return p.paint(yellow, checkWords[s.Check]+" !")
	}
	return checkWords[s.Check]
}

// hangsOn says what the figures are worth where nothing tells how large a size
// is.
func (p *forecast) hangsOn() {
	if len(p.e.HangsOn) == 0 {
		return
	}
	var assumed []string
	for _, id := range p.e.HangsOn {
		if s := p.r.Size(id); s.Determined {
			id += " " + p.amount(s.Value, s.Dimension)
		}
		assumed = append(assumed, id)
	}
	p.line("")
	p.paragraph("", fmt.Sprintf("What the readings are worth hangs on sizes that nothing tells yet; taken here are %s. Give them a `guess:`.",
		strings.Join(assumed, ", ")))
}

// unseen names the readings that nothing checks.
func (p *forecast) unseen() {
	var lines []string
	for _, id := range p.e.Unseen {
		lines = append(lines, fmt.Sprintf("%s (%s)", id, p.r.Job.Reading(id).By))
	}
	p.list("Nothing would show that one of these is wrong", lines)
}

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
			U: show(s.U), Half: show(adjust.Coverage95 * s.U), Determined: s.Determined, Readings: s.Readings, Checked: checkWords[s.Check],
		}
	}
	for _, v := range r.Readings {
		out.Readings = append(out.Readings, expectedReading(e, v))
	}
	for _, u := range r.Undetermined {
		out.Undetermined = append(out.Undetermined, undeterminedJSON(u))
	}
	for _, warning := range r.Warnings {
		out.Warnings = append(out.Warnings, warningJSON(warning))
	}
	return encode(w, out)
}

func expectedReading(e *advise.Expectation, v adjust.Value) expectedReadingJSON {
	out := expectedReadingJSON{
		ID: v.ID, Planned: slices.Contains(e.Planned, v.ID), Shows: number(natural(v.Predicted[0], v.Dimension)),
		Redundancy: v.Redundancy, SmallestCatchable: number(natural(v.SmallestCatchable, v.Dimension)),
		Checked: checkWords[e.Result.Checked(v.ID)],
	}
	if v.Pair || v.Unknown {
		out.Shows = number(math.NaN())
	}
	return out
}
