package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/show/say"
)

// nextJSON is one reading worth taking. U is the 95 % half width, null
// where the size stays open.
type nextJSON struct {
	By       string            `json:"by"`
	Of       map[string]string `json:"of,omitempty"`
	That     string            `json:"that,omitempty"`
	With     string            `json:"with,omitempty"`
	Again    string            `json:"again,omitempty"` // the reading to take one more value of
	At       *[2]float64       `json:"at,omitempty"`    // of a touch
	For      string            `json:"for"`
	Unit     string            `json:"unit"`
	UNow     *float64          `json:"u_now"`
	UThen    *float64          `json:"u_then"`
	HalfThen *float64          `json:"U_then"`
	Rough    bool              `json:"rough"`  // U_then hangs on what is hardly known yet
	Checks   bool              `json:"checks"` // other readings would check all that settle the size
	Checked  string            `json:"checked"`
	Weakest  float64           `json:"weakest"` // redundancy of the weakest of them
	Effort   int               `json:"effort"`
	Borrow   []lentJSON        `json:"borrow"`
	Shows    *float64          `json:"shows"`
	Settles  []sourceJSON      `json:"settles,omitempty"`
	Text     string            `json:"text"`
}

// lentJSON is a gauge piece as a kit lists it.
type lentJSON struct {
	ID        string `json:"id"`
	Kind      string `json:"kind"`
	Size      string `json:"size"`
	Tolerance string `json:"tolerance"`
}

// AdviceJSON writes the readings worth taking as one JSON list, best first.
func AdviceJSON(w io.Writer, a *advise.Advice) error {
	list := make([]nextJSON, len(a.Best))
	for i := range a.Best {
		list[i] = nextToJSON(a, &a.Best[i])
	}
	return encode(w, list)
}

func nextToJSON(a *advise.Advice, c *advise.Candidate) nextJSON {
	d := say.DimensionOf(a)
	show := func(s advise.State, x float64) *float64 { return numberIf(s.Determined, natural(x, d)) }
	out := nextJSON{
		By: c.Reading.By, That: c.Reading.That.Text, With: c.Reading.With, At: c.At, For: a.For, Unit: unitOf(d),
		UNow: show(a.Now, a.Now.U), UThen: show(c.Then, c.Then.U), HalfThen: show(c.Then, c.Then.U95()),
		Rough: c.Rough, Checks: c.Then.Determined && c.Then.Check == adjust.OthersCheck, Checked: say.CheckWords[c.Then.Check], Weakest: c.Then.Weakest,
		Effort: int(c.Effort), Borrow: []lentJSON{}, Shows: number(natural(c.Shows, say.Reads(a, c))), Text: say.Promise(a, c).Shown(inJob(a.Result.Job)),
	}
	if c.Again {
		out.Again = c.Reading.ID
	}
	for _, arg := range c.Reading.Of {
		if out.Of == nil {
			out.Of = map[string]string{}
		}
		out.Of[arg.Role] = arg.ID + arg.Value.String()
	}
	for _, piece := range c.Borrow {
		out.Borrow = append(out.Borrow, lentToJSON(piece))
	}
	if c.Settle != nil {
		out.Settles = sourcesToJSON(c.Settle.Between)
	}
	return out
}

func unitOf(d unit.Dimension) string {
	if d == unit.Length {
		return "mm"
	}
	return unitName(d)
}

func lentToJSON(p trade.Piece) lentJSON {
	return lentJSON{ID: p.ID, Kind: string(p.Kind), Size: p.Size.String(), Tolerance: p.Tolerance.String()}
}
