package report

import (
	"fmt"
	"io"
	"math"
	"math/big"

	"codeberg.org/oddleg/oddleg/make/lathe"
)

// Dividing writes how a table or a dividing head is turned by one step. What was
// assumed of it is said too, if anything was.
func Dividing(w io.Writer, d *lathe.Dividing, assumed string, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() { p.divided(d, assumed) })
}

func (p *printer) divided(d *lathe.Dividing, assumed string) {
	what := fmt.Sprintf("%d divisions", d.Wanted.Count)
	if d.Wanted.Count == 0 {
		what = fmt.Sprintf("Steps of %v", d.Wanted.Angle)
	}
	p.line("%s", p.paint(bold, fmt.Sprintf("%s on a table of %s of the handle", what, plural(d.Table.Ratio, "turn"))))
	if assumed != "" {
		p.line("  %s", assumed)
	}
	p.line("  one step is %s", turnsText(d.Turns))
	p.dividing(d)
}

// turnsText writes turns of the handle as a whole number and a fraction, or in
// decimals where the fraction is not to be read.
func turnsText(turns *big.Rat) string {
	const longest = 1e6
	whole, rest := new(big.Int).QuoRem(turns.Num(), turns.Denom(), new(big.Int))
	switch {
	case rest.Sign() == 0:
		return plural(int(whole.Int64()), "turn")
	case turns.Denom().Cmp(big.NewInt(longest)) > 0:
		return turns.FloatString(6) + " turns"
	case whole.Sign() == 0:
		return fmt.Sprintf("%v/%v of a turn", rest, turns.Denom())
	}
	return fmt.Sprintf("%v %v/%v turns", whole, rest, turns.Denom())
}

// dividing writes the ways, what is doubtful and how they are used.
func (p *printer) dividing(d *lathe.Dividing) {
	for _, text := range d.Warnings {
		p.paragraph("- ", p.paint(yellow, text))
	}
	p.ways("On one circle", plainRows(d))
	p.ways("On two circles, if they are on one plate", compoundRows(d))
	p.ways("With gears to the plate", differentialRows(d))
	if d.Dial.Known() {
		p.line("\n  %s", "By the dial: "+p.paint(bold, move(d.Dial)))
	}
	p.line("")
	for _, text := range d.Advice {
		p.paragraph("- ", text)
	}
}

// ways writes a table of ways, nothing where there is none.
func (p *printer) ways(heading string, rows [][]string) {
	if len(rows) > 1 {
		p.line("\n  %s", heading)
		p.table(filled(rows))
	}
}

// mostCircles is how many circles are shown where none is exact.
const mostCircles = 6

func plainRows(d *lathe.Dividing) [][]string {
	rows := [][]string{{"turns", "holes", "circle", "out by", "after the last", "counted from the first"}}
	for i, way := range d.Plain {
		row := []string{count(way.Turns), count(way.Holes), count(way.Circle), "exact", "", ""}
		switch {
		case way.Error == 0 && way.Holes == 0:
			row[2] = "any"
			return append(rows, row)
		case way.Error != 0 && i == mostCircles:
			return rows
		case way.Error != 0:
			row[3] = fineAngle(way.Error)
			if d.Wanted.Count > 0 {
				row[4], row[5] = fineAngle(way.Last), "to "+fineAngle(way.Counted)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// fineAngle writes an error of an angle in degrees, minutes or seconds, whichever
// it has at least one of.
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

func compoundRows(d *lathe.Dividing) [][]string {
	rows := [][]string{{"first", "then", "out by", "after the last"}}
	for _, way := range d.Compound {
		row := []string{holesOn(way.First), holesOn(way.Second), "exact", ""}
		if way.Error != 0 {
			row[2] = fineAngle(way.Error)
			if d.Wanted.Count > 0 {
				row[3] = fineAngle(way.Last)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

func holesOn(h lathe.HolesOn) string { return fmt.Sprintf("%d on %d", h.Holes, h.Circle) }

func differentialRows(d *lathe.Dividing) [][]string {
	rows := [][]string{{"as if for", "turns", "holes", "circle", "drivers", "driven", "the plate turns"}}
	for _, way := range d.Differential {
		with := "with the handle"
		if way.Ratio.Num < 0 {
			with = "against the handle"
		}
		rows = append(rows, []string{
			count(way.For), count(way.Plain.Turns), count(way.Plain.Holes), count(way.Plain.Circle), teeth(way.Drivers), teeth(way.Driven), with,
		})
	}
	return rows
}

// The JSON form of dividing, in degrees of the table.
type (
	dividingJSON struct {
		*indexingJSON
		Others       []indexingJSON     `json:"others,omitempty"`
		Compound     []compoundJSON     `json:"compound,omitempty"`
		Differential []differentialJSON `json:"differential,omitempty"`
		Dial         *dialJSON          `json:"dial,omitempty"`
		Warnings     []string           `json:"warnings,omitempty"`
	}
	indexingJSON struct {
		Turns   int     `json:"turns"`
		Holes   int     `json:"holes"`
		Circle  int     `json:"circle"`
		Error   float64 `json:"error_deg"`
		Last    float64 `json:"error_last_deg,omitempty"`
		Counted float64 `json:"error_counted_deg,omitempty"`
	}
	compoundJSON struct {
		Moves []holesOnJSON `json:"moves"`
		Error float64       `json:"error_deg"`
		Last  float64       `json:"error_last_deg,omitempty"`
	}
	holesOnJSON struct {
		Holes  int `json:"holes"`
		Circle int `json:"circle"`
	}
	differentialJSON struct {
		For int `json:"for"`
		indexingJSON
		Ratio   string `json:"ratio"` // of the plate to the spindle
		Drivers []int  `json:"drivers"`
		Driven  []int  `json:"driven"`
	}
	dialJSON struct {
		Turns     int     `json:"turns"`
		Divisions float64 `json:"divisions"`
	}
)

// DividingJSON writes the best plain way as one JSON object, with the others in
// it.
func DividingJSON(w io.Writer, d *lathe.Dividing) error {
	out := dividingJSON{Warnings: d.Warnings}
	for i, way := range d.Plain {
		one := indexingToJSON(way)
		if i == 0 {
			out.indexingJSON = &one
		} else {
			out.Others = append(out.Others, one)
		}
	}
	for _, way := range d.Compound {
		moves := []holesOnJSON{holesOnJSON(way.First), holesOnJSON(way.Second)}
		out.Compound = append(out.Compound, compoundJSON{moves, way.Error * degreesPerRadian, way.Last * degreesPerRadian})
	}
	for _, way := range d.Differential {
		out.Differential = append(out.Differential, differentialJSON{
			way.For, indexingToJSON(way.Plain), ratioText(way.Ratio), way.Drivers, way.Driven,
		})
	}
	if d.Dial.Known() {
		out.Dial = &dialJSON{d.Dial.Turns, d.Dial.Divisions}
	}
	return encode(w, out)
}

func indexingToJSON(i lathe.Indexing) indexingJSON {
	return indexingJSON{i.Turns, i.Holes, i.Circle, i.Error * degreesPerRadian, i.Last * degreesPerRadian, i.Counted * degreesPerRadian}
}
