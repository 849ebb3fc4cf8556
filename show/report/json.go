// Package report writes what other programs and other places are given: results as
// JSON objects with the keys that are agreed, the label for a bag, the handbook of
// methods, the chart of what was meant, a wrong file with its faults.
//
// Lengths in JSON are in mm, angles in degrees, and nothing is rounded for show.
// What people are told is written in say; where JSON has a sentence, it is that.
package report

import (
	"encoding/json"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON forms: lengths in mm, angles in degrees, pitches in mm, whatever the
// units of the job. Nothing is rounded for show.
type (
	resultJSON struct {
		Job          string              `json:"job"`
		Chi2         float64             `json:"chi2"`
		Dof          int                 `json:"dof"`
		Chi2P        float64             `json:"chi2_p"`
		Sizes        map[string]sizeJSON `json:"sizes"`
		Kit          map[string]kitJSON  `json:"kit"`
		Readings     []valueJSON         `json:"readings"`
		Relations    []tieJSON           `json:"relations"`
		Either       [][]sourceJSON      `json:"either"`
		Places       map[string]any      `json:"places"`
		Undetermined []undeterminedJSON  `json:"undetermined"`
		Warnings     []warningJSON       `json:"warnings"`
		Simulation   *simulationJSON     `json:"simulation,omitempty"`
		SettledBy    []string            `json:"either_settled_by,omitempty"`

		Threads       map[string][]threadJSON `json:"threads,omitempty"`
		SettleThreads map[string]string       `json:"threads_settle,omitempty"`

		Meaning *meaningJSON `json:"meaning,omitempty"`
	}
	sizeJSON struct {
		Unit       string    `json:"unit"`
		Value      *float64  `json:"value"`
		U          *float64  `json:"u"`
		Low        *float64  `json:"low"`
		High       *float64  `json:"high"`
		Determined bool      `json:"determined"`
		Readings   int       `json:"readings"`
		Checked    string    `json:"checked"`
		Least      *float64  `json:"least,omitempty"`
		Most       *float64  `json:"most,omitempty"`
		ULeast     *float64  `json:"u_least,omitempty"`
		UMost      *float64  `json:"u_most,omitempty"`
		Known      *testJSON `json:"known,omitempty"`

		Meant       []candidateJSON `json:"meant,omitempty"`
		NoRoundSize *float64        `json:"no_round_size,omitempty"`
		OtherRound  *float64        `json:"other_round_size,omitempty"` // too faint to list
		CannotTell  *tellJSON       `json:"cannot_tell,omitempty"`
		Stated      *float64        `json:"stated,omitempty"` // of a size tied by relations
	}
	testJSON struct {
		Residual   float64       `json:"residual"`
		Normalised float64       `json:"normalised"`
		Redundancy float64       `json:"redundancy"`
		Suspect    bool          `json:"suspect"`
		Perhaps    []perhapsJSON `json:"perhaps,omitempty"`
	}
	kitJSON struct {
		Zero       *float64      `json:"zero,omitempty"`
		Value      *float64      `json:"value,omitempty"`
		U          float64       `json:"u"`
		Normalised float64       `json:"normalised"`
		Redundancy float64       `json:"redundancy"`
		Suspect    bool          `json:"suspect"`
		Perhaps    []perhapsJSON `json:"perhaps,omitempty"`
	}
	valueJSON struct {
		ID                string        `json:"id"`
		Index             int           `json:"index"`
		Saw               any           `json:"saw"`
		Predicted         any           `json:"predicted"`
		Residual          *float64      `json:"residual"`
		Normalised        *float64      `json:"normalised"`
		Redundancy        float64       `json:"redundancy"`
		SmallestCatchable *float64      `json:"smallest_catchable"`
		Suspect           bool          `json:"suspect"`
		SetAside          bool          `json:"set_aside,omitempty"`
		Perhaps           []perhapsJSON `json:"perhaps,omitempty"`
	}
	tieJSON struct {
		Index int `json:"index"`
		testJSON
	}
	sourceJSON struct {
		Reading  string `json:"reading,omitempty"`
		Kit      string `json:"kit,omitempty"`
		Size     string `json:"size,omitempty"`
		Relation *int   `json:"relation,omitempty"`
		Index    *int   `json:"index,omitempty"`
	}
	pointJSON struct {
		X          *float64 `json:"x"`
		Y          *float64 `json:"y"`
		UX         *float64 `json:"u_x"`
		UY         *float64 `json:"u_y"`
		Determined bool     `json:"determined"`
	}
	lineJSON struct {
		Angle      *float64 `json:"angle"`
		Offset     *float64 `json:"offset"`
		UAngle     *float64 `json:"u_angle"`
		UOffset    *float64 `json:"u_offset"`
		Determined bool     `json:"determined"`
	}
	undeterminedJSON struct {
		Sizes []string `json:"sizes"`
		Text  string   `json:"text"`
	}
	warningJSON struct {
		Reading string `json:"reading,omitempty"`
		Text    string `json:"text"`
	}
	faultJSON struct {
		Line   int    `json:"line"`
		Column int    `json:"column"`
		Text   string `json:"text"`
	}
)

// Addition puts more into the JSON of a result.
type Addition func(*resultJSON)

// JSON writes a result as one JSON object.
func JSON(w io.Writer, r *adjust.Result, additions ...Addition) error {
	out := resultJSON{
		Job: r.Job.Name, Chi2: r.Chi2, Dof: r.Dof, Chi2P: r.P,
		Sizes: map[string]sizeJSON{}, Kit: map[string]kitJSON{}, Readings: []valueJSON{}, Relations: []tieJSON{},
		Either: [][]sourceJSON{}, Places: map[string]any{}, Undetermined: []undeterminedJSON{}, Warnings: []warningJSON{},
	}
	for _, s := range r.Sizes {
		out.Sizes[s.ID] = sizeToJSON(s)
	}
	for _, z := range r.Instruments {
		value := natural(z.Value, z.Dimension)
		out.Kit[z.ID] = kitJSON{Zero: &value, U: natural(z.U, z.Dimension), Normalised: z.Normalised, Redundancy: z.Redundancy, Suspect: z.Suspect}
	}
	for _, p := range r.Pieces {
		out.Kit[p.ID] = kitJSON{Value: &p.Value, U: p.U, Normalised: p.Normalised, Redundancy: p.Redundancy, Suspect: p.Suspect}
	}
	for _, v := range r.Readings {
		out.Readings = append(out.Readings, valueToJSON(v))
	}
	for _, t := range r.Relations {
		out.Relations = append(out.Relations, tieToJSON(r.Job, t))
	}
	for _, group := range r.Either {
		out.Either = append(out.Either, sourcesToJSON(group))
	}
	for _, p := range r.Places {
		out.Places[p.ID] = placeToJSON(p)
	}
	for _, u := range r.Undetermined {
		out.Undetermined = append(out.Undetermined, undeterminedJSON(u))
	}
	for _, warning := range r.Warnings {
		out.Warnings = append(out.Warnings, warningToJSON(warning, r.Job))
	}
	for _, add := range additions {
		add(&out)
	}
	return encode(w, out)
}

// inJob is the view in which programs are told texts: the units that a job is
// written in.
func inJob(job *trade.Job) unit.View { return unit.View{In: job.Units} }

// told writes texts; none are an empty list.
func told(list []unit.Text, view unit.View) []string {
	lines := make([]string, len(list))
	for i, text := range list {
		lines[i] = text.Shown(view)
	}
	return lines
}

func warningToJSON(w adjust.Warning, job *trade.Job) warningJSON {
	return warningJSON{Reading: w.Reading, Text: w.Text.Shown(inJob(job))}
}

// FaultsJSON writes what is wrong with a job as one JSON object.
func FaultsJSON(w io.Writer, faults trade.Faults) error {
	list := make([]faultJSON, len(faults))
	for i, f := range faults {
		list[i] = faultJSON{Line: f.Pos.Line, Column: f.Pos.Column, Text: f.Text}
	}
	return encode(w, map[string][]faultJSON{"errors": list})
}

func encode(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", " ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(value)
}

// natural turns radians into the degrees that people and programs are shown.
func natural(x float64, d unit.Dimension) float64 {
	if d == unit.Angle {
		return x * 180 / math.Pi
	}
	return x
}

// number returns x for JSON, which knows no NaN and no infinity.
func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// numberIf returns x where ok, null otherwise.
func numberIf(ok bool, x float64) *float64 {
	if !ok {
		return nil
	}
	return number(x)
}

func sizeToJSON(s adjust.Size) sizeJSON {
	show := func(x float64) *float64 { return numberIf(s.Determined, natural(x, s.Dimension)) }
	out := sizeJSON{
		Unit: unitName(s.Dimension), Value: show(s.Value), U: show(s.U), Low: show(s.Low()), High: show(s.High()),
		Determined: s.Determined, Readings: s.Readings, Checked: say.CheckWords[s.Check],
	}
	if s.Extent != nil {
		out.Least, out.Most = show(s.Extent.Least), show(s.Extent.Most)
		out.ULeast, out.UMost = show(s.Extent.ULeast), show(s.Extent.UMost)
	}
	if s.Known != nil {
		test := testToJSON(*s.Known, s.Dimension)
		out.Known = &test
	}
	return out
}

func unitName(d unit.Dimension) string {
	return map[unit.Dimension]string{unit.Length: "mm", unit.Angle: "deg"}[d]
}

func testToJSON(t adjust.Test, d unit.Dimension) testJSON {
	return testJSON{Residual: natural(t.Residual, d), Normalised: t.Normalised, Redundancy: t.Redundancy, Suspect: t.Suspect}
}

func tieToJSON(job *trade.Job, t adjust.Tie) tieJSON {
	r := job.Relations[t.Index]
	d := r.Within.Dimension()
	if r.U.Given() {
		d = r.U.Dimension()
	}
	return tieJSON{Index: t.Index, testJSON: testToJSON(t.Test, d)}
}

func valueToJSON(v adjust.Value) valueJSON {
	show := func(x float64) *float64 { return number(natural(x, v.Dimension)) }
	out := valueJSON{
		ID: v.ID, Index: v.Index, Saw: show(v.Saw[0]), Predicted: numberIf(!v.Unknown, natural(v.Predicted[0], v.Dimension)),
		Residual: numberIf(!v.Unknown, natural(v.Residual, v.Dimension)), Normalised: numberIf(!v.Unknown, v.Normalised),
		Redundancy: v.Redundancy, SmallestCatchable: show(v.SmallestCatchable), Suspect: v.Suspect, SetAside: v.SetAside,
	}
	if v.Pair {
		out.Saw = v.Saw
		if out.Predicted = nil; !v.Unknown {
			out.Predicted = v.Predicted
		}
	}
	return out
}

func sourcesToJSON(group []adjust.Source) []sourceJSON {
	var list []sourceJSON
	for _, s := range group {
		switch s.Kind {
		case adjust.FromReading:
			list = append(list, sourceJSON{Reading: s.ID, Index: &s.Index})
		case adjust.FromInstrument, adjust.FromPiece:
			list = append(list, sourceJSON{Kit: s.ID})
		case adjust.FromKnown:
			list = append(list, sourceJSON{Size: s.ID})
		case adjust.FromRelation:
			list = append(list, sourceJSON{Relation: &s.Index})
		}
	}
	return list
}

func placeToJSON(p adjust.Place) any {
	show := func(x float64) *float64 { return numberIf(p.Determined, x) }
	if p.Line {
		const degree = 180 / math.Pi
		return lineJSON{Angle: show(p.At[0] * degree), Offset: show(p.At[1]), UAngle: show(p.U[0] * degree), UOffset: show(p.U[1]), Determined: p.Determined}
	}
	return pointJSON{X: show(p.At[0]), Y: show(p.At[1]), UX: show(p.U[0]), UY: show(p.U[1]), Determined: p.Determined}
}
