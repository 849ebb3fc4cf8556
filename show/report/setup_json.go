package report

import (
	"bytes"
	"encoding/json"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON form of set-ups, in mm, N, kg and degrees; null where a figure is not
// known or has no end.
type (
	setupJSON struct {
		Job        string     `json:"job"`
		Part       string     `json:"part"`
		Stock      stockJSON  `json:"stock"`
		Order      *orderJSON `json:"order"`
		Operations []stepJSON `json:"operations"`
		Cautions   []string   `json:"cautions"`
	}
	stockJSON struct {
		Width     float64  `json:"width_mm"`
		Thickness float64  `json:"thickness_mm"`
		Length    float64  `json:"length_mm"`
		Bar       float64  `json:"bar_mm"`
		Pieces    int      `json:"pieces"`
		Spares    int      `json:"spares"`
		Mass      *float64 `json:"mass_kg"`
	}
	stepJSON struct {
		ID      string            `json:"id"`
		Do      string            `json:"do"`
		On      string            `json:"on"`
		Held    *heldJSON         `json:"held,omitempty"`
		Speeds  json.RawMessage   `json:"speeds,omitempty"`
		Faces   []arcFaceJSON     `json:"faces,omitempty"`
		Datum   *datumJSON        `json:"datum,omitempty"`
		Holes   []holePlaceJSON   `json:"coordinates,omitempty"`
		Chords  []chordJSON       `json:"chords,omitempty"`
		Divided []dividedJSON     `json:"dividing,omitempty"`
		Threads []planThreadJSON  `json:"threads,omitempty"`
		Taps    []json.RawMessage `json:"taps,omitempty"`
		Tapers  []turnedTaperJSON `json:"tapers,omitempty"`
		Notes   []string          `json:"notes"`

		Cautions []string `json:"cautions,omitempty"`
	}
	spotJSON struct {
		X float64 `json:"x"`
		Y float64 `json:"y"`
	}
	heldJSON struct {
		Verdict  hold.Verdict `json:"verdict"`
		Free     []motionJSON `json:"free"`
		Creep    *motionJSON  `json:"creep"`
		Friction float64      `json:"friction"`
		Factor   *float64     `json:"factor"`
		Endless  bool         `json:"endless"` // the factor has no end
		Shares   []shareJSON  `json:"shares"`
		Said     []string     `json:"said"`
		Warnings []string     `json:"warnings"`
	}
	motionJSON struct {
		Text    string    `json:"text"`
		Towards *float64  `json:"towards_deg,omitempty"`
		About   *spotJSON `json:"about,omitempty"`
		Turn    geom.Turn `json:"turn"` // 1 anticlockwise, -1 clockwise, 0 a slide
		Both    bool      `json:"both_ways"`
	}
	shareJSON struct {
		Contact string       `json:"contact"`
		Rest    heldSpanJSON `json:"rest_n"`
		Cutting heldSpanJSON `json:"cutting_n"`
	}
	heldSpanJSON struct {
		Low  *float64 `json:"low"`
		High *float64 `json:"high"`
	}
	arcFaceJSON struct {
		Convex bool           `json:"convex"`
		Radius float64        `json:"radius"`
		Offset float64        `json:"offset"`
		Start  float64        `json:"start_deg"`
		Stop   float64        `json:"stop_deg"`
		Passes []facePassJSON `json:"passes"`
	}
	facePassJSON struct {
		Finishing bool    `json:"finishing"`
		Radius    float64 `json:"radius"`
		Offset    float64 `json:"offset"`
		spotJSON
	}
	datumJSON struct {
		spotJSON             // what the readout shows there
		Touches  []touchJSON `json:"touches"`
	}
	touchJSON struct {
		Side trade.Side `json:"side"`
		Axis string     `json:"axis"`
		Set  float64    `json:"set"`
	}
	holePlaceJSON struct {
		Hole     string  `json:"hole"`
		Diameter float64 `json:"diameter"`
		spotJSON
	}
	chordJSON struct {
		From    string   `json:"from"`
		To      string   `json:"to"`
		Centres float64  `json:"centres"`
		Over    *float64 `json:"over"`
		Inside  *float64 `json:"inside"`
	}
	dividedJSON struct {
		What  string          `json:"what"`
		Index json.RawMessage `json:"index"`
	}
	planThreadJSON struct {
		Name    string          `json:"name"`
		Thread  string          `json:"thread"`
		Cutting *cuttingJSON    `json:"screwcutting"`
		Gears   json.RawMessage `json:"change_gears,omitempty"`
	}
	turnedTaperJSON struct {
		Swivel  float64  `json:"swivel_deg"`
		SetOver *float64 `json:"set_over"`
		Check   float64  `json:"check_travel"`
		Dial    float64  `json:"check_dial"`
	}
)

// SetupJSON writes the same as one JSON object.
func SetupJSON(w io.Writer, planned *plan.Plan) error {
	s := planned.Stock
	out := setupJSON{
		Job: planned.Job.Name, Part: planned.Model.Name, Operations: []stepJSON{}, Cautions: plan.Cautions(), Order: orderToJSON(planned.Order),
		Stock: stockJSON{s.Width, s.Thickness, s.Length, s.Bar, s.Plan.Pieces, s.Plan.Spares, numberIf(s.Mass > 0, s.Mass)},
	}
	for _, step := range planned.Steps {
		one, err := stepToJSON(step, inJob(planned.Job))
		if err != nil {
			return err
		}
		if step.Turn != nil {
			one.Cautions = step.Turn.Cautions(planned.Job)
		}
		out.Operations = append(out.Operations, one)
	}
	return encode(w, out)
}

func stepToJSON(s *plan.Step, view unit.View) (stepJSON, error) {
	out := stepJSON{Notes: append([]string{}, s.Notes...), Held: heldToJSON(s.Held, view)}
	if s.Operation != nil {
		out.ID, out.Do = s.Operation.ID, s.Operation.Do
	}
	if s.Machine != nil {
		out.On = s.Machine.ID
	}
	out.placesOf(s)
	for _, t := range s.Tapers {
		out.Tapers = append(out.Tapers, turnedTaperJSON{t.Swivel * degreesPerRadian, number(t.SetOver), t.Check, t.ByCarriage})
	}
	return out, out.tablesOf(s)
}

// placesOf adds the coordinates of an operation.
func (o *stepJSON) placesOf(s *plan.Step) {
	if s.Arcs != nil {
		for _, f := range s.Arcs.Faces {
			face := arcFaceJSON{Convex: f.Convex, Radius: f.Radius, Offset: f.Offset, Start: f.Start * degreesPerRadian, Stop: f.Stop * degreesPerRadian}
			for _, pass := range f.Passes {
				face.Passes = append(face.Passes, facePassJSON{pass.Finishing, pass.Radius, pass.Offset, spotJSON(pass.Readout)})
			}
			o.Faces = append(o.Faces, face)
		}
	}
	if s.Places != nil {
		o.Datum = datumToJSON(s.Places)
		for _, h := range s.Places.Holes {
			o.Holes = append(o.Holes, holePlaceJSON{h.Name, h.Diameter, spotJSON(h.Readout)})
		}
		for _, k := range s.Places.Chords {
			o.Chords = append(o.Chords, chordJSON{k.From, k.To, k.Centres, number(k.Over), number(k.Inside)})
		}
	}
}

func datumToJSON(c *lathe.Coordinates) *datumJSON {
	out := &datumJSON{spotJSON: spotJSON(c.Datum.Shows), Touches: []touchJSON{}}
	for _, touch := range c.Touches {
		out.Touches = append(out.Touches, touchJSON{c.Datum.Side(touch.Axis), touch.Axis, touch.Set})
	}
	return out
}

// tablesOf adds what verbs of its own have too, in their form.
func (o *stepJSON) tablesOf(s *plan.Step) (err error) {
	if s.Speeds != nil {
		if o.Speeds, err = raw(func(w io.Writer) error { return CutSpeedsJSON(w, s.Speeds) }); err != nil {
			return err
		}
	}
	for _, d := range s.Divided {
		index, err := raw(func(w io.Writer) error { return DividingJSON(w, d.Dividing) })
		if err != nil {
			return err
		}
		o.Divided = append(o.Divided, dividedJSON{d.What, index})
	}
	for _, t := range s.Threads {
		one := planThreadJSON{Name: t.Name, Thread: t.Cutting.Sheet.Thread.Designation, Cutting: cuttingToJSON(t.Cutting)}
		if t.Gears != nil {
			if one.Gears, err = raw(func(w io.Writer) error { return ChangeGearsJSON(w, t.Gears, 0) }); err != nil {
				return err
			}
		}
		o.Threads = append(o.Threads, one)
	}
	for _, t := range s.Taps {
		tap, err := raw(func(w io.Writer) error { return TapJSON(w, say.Tapping{Sheet: t.Sheet, Holes: t.Holes}) })
		if err != nil {
			return err
		}
		o.Taps = append(o.Taps, tap)
	}
	return nil
}

// raw returns what is written as JSON.
func raw(write func(io.Writer) error) (json.RawMessage, error) {
	var b bytes.Buffer
	err := write(&b)
	return b.Bytes(), err
}

func heldToJSON(h *hold.Judgement, view unit.View) *heldJSON {
	if h == nil {
		return nil
	}
	out := &heldJSON{
		Verdict: h.Verdict, Free: []motionJSON{}, Friction: h.Friction, Factor: number(h.Factor), Endless: math.IsInf(h.Factor, 1),
		Shares: []shareJSON{}, Said: told(h.Said, view), Warnings: told(h.Warnings, view),
	}
	for _, m := range h.Free {
		out.Free = append(out.Free, motionToJSON(m, view))
	}
	if h.Creep != nil {
		creep := motionToJSON(*h.Creep, view)
		out.Creep = &creep
	}
	for _, s := range h.Shares {
		out.Shares = append(out.Shares, shareJSON{s.Contact.ID, heldSpanToJSON(s.Rest), heldSpanToJSON(s.Cutting)})
	}
	return out
}

func motionToJSON(m hold.Motion, view unit.View) motionJSON {
	out := motionJSON{Text: m.Text().Shown(view), Turn: m.Turn, Both: m.BothWays}
	if m.Turn == geom.Straight {
		out.Towards = number(m.Towards * degreesPerRadian)
	} else {
		about := spotJSON(m.About)
		out.About = &about
	}
	return out
}

func heldSpanToJSON(s strength.Span) heldSpanJSON { return heldSpanJSON{number(s.Low), number(s.High)} }
