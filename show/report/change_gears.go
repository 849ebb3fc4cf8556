package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// ChangeGears writes the trains for a thread, at most so many sets of gears, and
// what each is out over a length in mm, if one is stated.
func ChangeGears(w io.Writer, lathe *trade.Machinery, found *lathe.ChangeGears, length float64, most int, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() { p.changeGears(lathe, found, length, most) })
}

func (p *printer) changeGears(lathe *trade.Machinery, found *lathe.ChangeGears, length float64, most int) {
	p.gearsHeading(lathe, found)
	p.trains(found, found.Trains, length, most)
	p.gearsDoubts(found)
	if len(found.Substitutes) > 0 {
		p.heading("Without the gear that translates inches and millimetres")
		p.trains(found, found.Substitutes, length, most)
	}
	p.gearsNotes(found)
	p.atTheMachine()
}

func (p *printer) gearsHeading(lathe *trade.Machinery, found *lathe.ChangeGears) {
	said := fmt.Sprintf("%v on a leadscrew of %v", found.Wanted.Pitch, lathe.Leadscrew)
	if found.Wanted.Feed {
		said = "feed of " + said
	}
	if starts := found.Wanted.Starts; starts > 1 {
		said += fmt.Sprintf(": %d starts, lead %s mm", starts, decimal(found.Lead, 4))
	}
	p.line("%s\n", p.paint(bold, said))
}

// trains writes a line for each set of gears. Of the orders in which the gears of
// a set can stand the first is shown.
func (p *printer) trains(found *lathe.ChangeGears, list []lathe.Train, length float64, most int) {
	rows := [][]string{{"drivers", "driven", "gearbox", "pitch, mm", "threads per inch", "error, ppm", ""}}
	if length > 0 {
		rows[0][6] = "out over " + figure(length) + " mm"
	}
	shown, sets := []lathe.Train{}, 0
	for _, t := range list {
		if slices.ContainsFunc(shown, t.Same) {
			continue
		}
		if sets++; len(shown) < most {
			shown = append(shown, t)
			rows = append(rows, p.trainRow(t, max(1, found.Wanted.Starts), length))
		}
	}
	p.table(filled(rows))
	if left := sets - len(shown); left > 0 {
		p.line("  and %s, none of them better", plural(left, "more set"))
	}
}

// filled leaves out columns in which nothing stands under the heading.
func filled(rows [][]string) [][]string {
	list := make([][]string, len(rows))
	for column := range rows[0] {
		if !slices.ContainsFunc(rows[1:], func(row []string) bool { return row[column] != "" }) {
			continue
		}
		for i, row := range rows {
			list[i] = append(list[i], row[column])
		}
	}
	return list
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (p *printer) trainRow(t lathe.Train, starts int, length float64) []string {
	pitch := t.Lead / float64(starts)
	row := []string{teeth(t.Drivers), teeth(t.Driven), ratioText(t.Gearbox), decimal(pitch, 5), decimal(unit.MillimetresPerInch/pitch, 4), "exact", ""}
	if t.Error != 0 {
		row[5] = signedDecimal(t.Error*1e6, 0)
		if length > 0 {
			row[6] = signedDecimal(t.Over(length), 3) + " mm"
		}
	}
	return row
}

// teeth writes gears in order from the spindle.
func teeth(gears []int) string {
	var list []string
	for _, n := range gears {
		list = append(list, strconv.Itoa(n))
	}
	return strings.Join(list, ", ")
}

func ratioText(r trade.Ratio) string {
	if !r.Given() {
		return ""
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

func signedDecimal(x float64, decimals int) string {
	if x < 0 {
		return decimal(x, decimals)
	}
	return "+" + decimal(x, decimals)
}

// gearsDoubts says why no train is exact.
func (p *printer) gearsDoubts(found *lathe.ChangeGears) {
	if found.Nearby {
		p.line("")
		p.paragraph("", p.paint(yellow, "No train is as near as was wanted: these are the nearest."))
	}
	if found.Lacking > 0 && !found.Wanted.Feed {
		p.line("")
		p.paragraph("", fmt.Sprintf("No train can be exact: that takes a gear of %d teeth, or a multiple of it, and there is none.", found.Lacking))
	}
}

func (p *printer) gearsNotes(found *lathe.ChangeGears) {
	p.heading("Notes")
	p.paragraph("- ", "Gears stand in order from the spindle: the first driver turns the first driven, which shares its stud with the second driver.")
	p.paragraph("- ", "A simple train takes any gear between its two as an idler. One idler more or less, or the tumbler, makes a left-hand thread.")
	p.paragraph("- ", "Whether the arm reaches is not known here: try the train by hand.")
	if starts := found.Wanted.Starts; starts > 1 {
		p.paragraph("- ", fmt.Sprintf("From start to start turn the spindle by 1/%d with the leadscrew held: with a fixed ratio of 1/1 a first driver whose teeth %d divides is unmeshed, turned by that part of them and meshed again; or move the top slide by the pitch.", starts, starts))
	}
}

// atTheMachine says what to mind there.
func (p *printer) atTheMachine() {
	p.heading("Mind")
	for _, text := range plan.Cautions() {
		p.paragraph("- ", text)
	}
}

// trainJSON is one train, in mm.
type trainJSON struct {
	Drivers  []int    `json:"drivers"`
	Driven   []int    `json:"driven"`
	Gearbox  string   `json:"gearbox,omitempty"`
	Pitch    float64  `json:"pitch_mm"`
	Lead     *float64 `json:"lead_mm,omitempty"` // of several starts
	ErrorPPM float64  `json:"error_ppm"`
	Over     *float64 `json:"error_over_length_mm,omitempty"`
}

// ChangeGearsJSON writes the trains as one JSON list, best first.
func ChangeGearsJSON(w io.Writer, found *lathe.ChangeGears, length float64) error {
	list := []trainJSON{}
	starts := max(1, found.Wanted.Starts)
	for _, t := range found.Trains {
		out := trainJSON{Drivers: t.Drivers, Driven: t.Driven, Gearbox: ratioText(t.Gearbox), Pitch: t.Lead / float64(starts), ErrorPPM: t.Error * 1e6}
		out.Lead = numberIf(starts > 1, t.Lead)
		out.Over = numberIf(length > 0 && !math.IsInf(length, 0), t.Over(length))
		list = append(list, out)
	}
	return encode(w, list)
}
