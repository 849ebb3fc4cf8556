package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
)

// The JSON forms of the proving of a part. Lengths are in mm, angles in degrees; a
// figure that does not exist is null.
type (
	checkJSON struct {
		Job    string         `json:"job"`
		Sheet  []toReadJSON   `json:"sheet"`
		Pieces []provedJSON   `json:"pieces"`
		Apart  []changeJSON   `json:"apart"`
		Next   []nextTimeJSON `json:"next_time"`
		Back   []backJSON     `json:"putting_back"`
	}
	toReadJSON struct {
		Size   string            `json:"size"`
		Unit   string            `json:"unit"`
		Low    *float64          `json:"low"`
		High   *float64          `json:"high"`
		By     string            `json:"by,omitempty"`
		With   string            `json:"with,omitempty"`
		Of     map[string]string `json:"of,omitempty"`
		Reads  string            `json:"reads,omitempty"`
		Shows  *float64          `json:"shows"`
		From   *float64          `json:"shows_low"`
		To     *float64          `json:"shows_high"`
		SureLo *float64          `json:"sure_low"`
		SureHi *float64          `json:"sure_high"`
		U      *float64          `json:"u"`
		Judge  string            `json:"judge"`
		Lent   bool              `json:"lent,omitempty"`
		Borrow []string          `json:"borrow,omitempty"`
		Finer  string            `json:"finer,omitempty"`
		Stops  []string          `json:"stops"`
	}
	provedJSON struct {
		Piece    int           `json:"piece"`
		Verdicts []verdictJSON `json:"verdicts"`
		Offers   []offerJSON   `json:"offers"`
	}
	verdictJSON struct {
		Size      string       `json:"size"`
		Unit      string       `json:"unit"`
		Value     *float64     `json:"value"`
		U         *float64     `json:"u"`
		Low       *float64     `json:"low"`
		High      *float64     `json:"high"`
		Chance    *float64     `json:"p_conforms"`
		Verdict   string       `json:"verdict"`
		Why       string       `json:"why,omitempty"`
		Corrected float64      `json:"corrected,omitempty"`
		Readings  []string     `json:"readings"`
		Take      *takeOffJSON `json:"take,omitempty"`
	}
	takeOffJSON struct {
		Off       float64  `json:"off"`
		Now       float64  `json:"now"`
		Cuts      int      `json:"cuts"`
		PPast     float64  `json:"p_past"`
		Past      bool     `json:"past,omitempty"`
		Diameter  bool     `json:"on_diameter"`
		Machine   string   `json:"machine,omitempty"`
		Slide     string   `json:"slide,omitempty"`
		Divisions *float64 `json:"divisions"`
		Mind      string   `json:"mind,omitempty"`
	}
	offerJSON struct {
		Size      string   `json:"size"`
		Clearance *float64 `json:"clearance"`
		U         *float64 `json:"u"`
		PBinds    *float64 `json:"p_binds"`
		Ease      float64  `json:"ease"`
	}
	changeJSON struct {
		Size    string   `json:"size"`
		Unit    string   `json:"unit"`
		Before  *float64 `json:"before"`
		UBefore *float64 `json:"u_before"`
		Now     *float64 `json:"now"`
		U       *float64 `json:"u"`
		Off     *float64 `json:"off"`
		UOff    *float64 `json:"u_off"`
		Right   bool     `json:"right"`
	}
	nextTimeJSON struct {
		Size string   `json:"size"`
		Unit string   `json:"unit"`
		Then *float64 `json:"then"`
		Make *float64 `json:"make"`
	}
	backJSON struct {
		When string `json:"when"`
		Text string `json:"text"`
	}
)

// judges are the words for how good a reading is beside a tolerance.
var judges = map[inspect.Judge]string{inspect.Fit: "good", inspect.Doubtful: "coarse", inspect.Unfit: "none"}

// CheckJSON writes the proving of a part as one JSON object.
func CheckJSON(w io.Writer, c *inspect.Result) error {
	out := checkJSON{
		Job: c.Job.Name, Sheet: []toReadJSON{}, Pieces: []provedJSON{}, Apart: []changeJSON{}, Next: []nextTimeJSON{}, Back: []backJSON{},
	}
	for i := range c.Sheet {
		out.Sheet = append(out.Sheet, sheetStep(&c.Sheet[i]))
	}
	for i := range c.Pieces {
		out.Pieces = append(out.Pieces, pieceForm(&c.Pieces[i]))
	}
	if c.Apart != nil {
		for _, change := range c.Apart.Changes {
			out.Apart = append(out.Apart, changeForm(change))
		}
		for _, n := range c.Apart.Next {
			d := n.Now.Size.Kind.Dimension()
			out.Next = append(out.Next, nextTimeJSON{n.Now.Size.ID, unitName(d), inUnit(n.Then.Target, d), inUnit(n.Now.Target, d)})
		}
	}
	for _, b := range c.Back {
		out.Back = append(out.Back, backJSON{string(b.When), b.Text})
	}
	return encode(w, out)
}

func sheetStep(s *inspect.Step) toReadJSON {
	d := s.Made.Size.Kind.Dimension()
	out := toReadJSON{
		Size: s.Made.Size.ID, Unit: unitName(d), Low: inUnit(s.Limits.Low, d), High: inUnit(s.Limits.High, d), U: inUnit(s.U, d),
		Judge: judges[s.Good], Stops: append([]string{}, s.Before...),
	}
	if r := s.Reading; r != nil {
		out.By, out.With, out.Reads, out.Of = r.By, r.With, unitName(s.Reads), map[string]string{}
		for _, arg := range r.Of {
			out.Of[arg.Role] = arg.ID + arg.Value.String()
		}
		out.Shows, out.From, out.To = inUnit(s.Shows, s.Reads), inUnit(s.ShowsLow, s.Reads), inUnit(s.ShowsHigh, s.Reads)
		out.Lent = s.Lent != nil
		for _, piece := range s.Borrow {
			out.Borrow = append(out.Borrow, piece.Size.String()+" "+string(piece.Kind))
		}
		if s.Finer != nil {
			out.Finer = s.Finer.With.ID
		}
		out.SureLo, out.SureHi = inUnit(s.Sure.Low, s.Reads), inUnit(s.Sure.High, s.Reads)
	}
	return out
}

func pieceForm(p *inspect.Piece) provedJSON {
	out := provedJSON{Piece: p.Number, Verdicts: []verdictJSON{}, Offers: []offerJSON{}}
	for i := range p.Verdicts {
		out.Verdicts = append(out.Verdicts, verdictForm(&p.Verdicts[i]))
	}
	for _, o := range p.Offers {
		out.Offers = append(out.Offers, offerJSON{o.Made.Size.ID, inUnit(o.Clearance, unit.Length), inUnit(o.U, unit.Length), inUnit(o.Binds, unit.Number), o.Ease})
	}
	return out
}

func verdictForm(v *inspect.Verdict) verdictJSON {
	d := v.Made.Size.Kind.Dimension()
	out := verdictJSON{
		Size: v.Made.Size.ID, Unit: unitName(d), Value: inUnit(v.Value, d), U: inUnit(v.U, d), Low: inUnit(v.Limits.Low, d), High: inUnit(v.Limits.High, d),
		Chance: inUnit(v.Chance, unit.Number), Verdict: string(v.Says), Why: v.Why, Corrected: v.Corrected, Readings: append([]string{}, v.Readings...),
	}
	if t := v.Take; t != nil {
		out.Take = &takeOffJSON{Off: t.Off, Now: t.Now, Cuts: t.Cuts, PPast: t.Past, Past: t.Gone, Diameter: t.Round, Mind: t.Mind}
		if t.Dial != nil {
			out.Take.Machine, out.Take.Slide, out.Take.Divisions = t.Dial.Machine, t.Dial.Slide, &t.Dial.Now
		}
	}
	return out
}

func changeForm(c inspect.Change) changeJSON {
	d := c.Size.Dimension
	return changeJSON{c.Size.ID, unitName(d), inUnit(c.Before, d), inUnit(c.UB, d), inUnit(c.Size.Value, d), inUnit(c.Size.U, d), inUnit(c.Off, d), inUnit(c.U, d), !c.Wrong}
}

// inUnit returns a figure in its natural unit, nil where it does not exist.
func inUnit(x float64, d unit.Dimension) *float64 { return number(natural(x, d)) }
