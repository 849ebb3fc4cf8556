package say

import (
	"fmt"
	"math"
	"math/big"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Dividing says how a table or a dividing head is turned by one step. What was
// assumed of it is said too, if anything was.
func Dividing(d *lathe.Dividing, assumed string) *doc.Document {
	what := number(d.Wanted.Count, "division")
	if d.Wanted.Count == 0 {
		what = fmt.Sprintf("Steps of %v", d.Wanted.Angle)
	}
	p := titled(fmt.Sprintf("%s on a table of %s of the handle", what, number(d.Table.Ratio, "turn")))
	if assumed != "" {
		p.say("%s", assumed)
	}
	p.say("one step is %s", turnsText(d.Turns))
	p.dividing(d)
	return &p.Document
}

// turnsText writes turns of the handle as a whole number and a fraction, or in
// decimals where the fraction is not to be read.
func turnsText(turns *big.Rat) string {
	const longest = 1e6
	whole, rest := new(big.Int).QuoRem(turns.Num(), turns.Denom(), new(big.Int))
	switch {
	case rest.Sign() == 0:
		return number(int(whole.Int64()), "turn")
	case turns.Denom().Cmp(big.NewInt(longest)) > 0:
		return turns.FloatString(6) + " turns"
	case whole.Sign() == 0:
		return fmt.Sprintf("%v/%v of a turn", rest, turns.Denom())
	}
	return fmt.Sprintf("%v %v/%v turns", whole, rest, turns.Denom())
}

// dividing says the ways, what is doubtful and how they are used.
func (p *page) dividing(d *lathe.Dividing) {
	for _, text := range d.Warnings {
		p.item("%s", warning(doc.Plain(text)))
	}
	p.ways("On one circle", onOneCircle(d))
	p.ways("On two circles, if they are on one plate", onTwoCircles(d))
	p.ways("With gears to the plate", withGears(d))
	if d.Dial.Known() {
		p.apart("By the dial: %s", strong(move(d.Dial)))
	}
	for i, text := range d.Advice {
		item := doc.Item(doc.Plain(text))
		if i == 0 {
			item.Space = doc.Apart
		}
		p.Add(item)
	}
}

// ways lists ways under a title, nothing where there is none.
func (p *page) ways(title string, t *doc.Table) {
	if len(t.Rows) > 0 {
		p.Add(doc.Paragraph{Words: doc.Plain(title), Space: doc.Apart, Keeps: true}, t.Filled())
	}
}

// mostCircles is how many circles are shown where none is exact.
const mostCircles = 6

func whole(n int) doc.Text { return doc.Say("%d", n) }

func onOneCircle(d *lathe.Dividing) *doc.Table {
	t := &doc.Table{Name: "plain", Columns: doc.Columns("turns", "holes", "circle", "out by", "after the last", "counted from the first")}
	for i, way := range d.Plain {
		row := doc.Cells{"turns": whole(way.Turns), "holes": whole(way.Holes), "circle": whole(way.Circle), "out by": doc.Plain("exact")}
		switch {
		case way.Error == 0 && way.Holes == 0:
			row["circle"] = doc.Plain("any")
			t.Add(row)
			return t
		case way.Error != 0 && i == mostCircles:
			return t
		case way.Error != 0:
			row["out by"] = doc.Plain(fineAngle(way.Error))
			if d.Wanted.Count > 0 {
				row["after the last"], row["counted from the first"] = doc.Plain(fineAngle(way.Last)), doc.Plain("to "+fineAngle(way.Counted))
			}
		}
		t.Add(row)
	}
	return t
}

// fineAngle writes an error of an angle in degrees, minutes or seconds, whichever it
// has at least one of.
func fineAngle(rad float64) string {
	degrees := rad * degreesPerRadian
	switch size := math.Abs(degrees); {
	case size < 1.0/60:
		return decimal(3600*degrees, 1) + `"`
	case size < 1:
		return decimal(60*degrees, 2) + "'"
	}
	return decimal(degrees, 2) + "°"
}

func onTwoCircles(d *lathe.Dividing) *doc.Table {
	t := &doc.Table{Name: "compound", Columns: doc.Columns("first", "then", "out by", "after the last")}
	for _, way := range d.Compound {
		row := doc.Cells{"first": holesOn(way.First), "then": holesOn(way.Second), "out by": doc.Plain("exact")}
		if way.Error != 0 {
			row["out by"] = doc.Plain(fineAngle(way.Error))
			if d.Wanted.Count > 0 {
				row["after the last"] = doc.Plain(fineAngle(way.Last))
			}
		}
		t.Add(row)
	}
	return t
}

func holesOn(h lathe.HolesOn) doc.Text { return doc.Say("%d on %d", h.Holes, h.Circle) }

func withGears(d *lathe.Dividing) *doc.Table {
	t := &doc.Table{Name: "differential", Columns: doc.Columns("as if for", "turns", "holes", "circle", "drivers", "driven", "the plate turns")}
	for _, way := range d.Differential {
		with := "with the handle"
		if way.Ratio.Num < 0 {
			with = "against the handle"
		}
		t.Add(doc.Cells{
			"as if for": whole(way.For), "turns": whole(way.Plain.Turns), "holes": whole(way.Plain.Holes), "circle": whole(way.Plain.Circle),
			"drivers": doc.Plain(teeth(way.Drivers)), "driven": doc.Plain(teeth(way.Driven)), "the plate turns": doc.Plain(with),
		})
	}
	return t
}

// move writes how far a handle is turned, nothing where there is no dial.
func move(h lathe.HandleMove) string {
	switch {
	case !h.Known():
		return ""
	case h.Turns == 0:
		return decimal(h.Divisions, 1) + " divisions"
	}
	return fmt.Sprintf("%s and %s divisions", number(h.Turns, "turn"), decimal(h.Divisions, 1))
}
