package say

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// findings puts what an adjustment found into words. Doubts explain what is
// suspect.
type findings struct {
	*page
	r      *adjust.Result
	doubts []blunder.Doubt
}

// Sizes says what the sizes are, then what is suspect, what cannot be found and
// what makes the result doubtful.
func Sizes(r *adjust.Result, doubts []blunder.Doubt) *doc.Document {
	f := &findings{titled(r.Job.Name), r, doubts}
	f.sizes()
	return &f.Document
}

// SizesChapter says the same as a chapter of the sheet.
func SizesChapter(r *adjust.Result, doubts []blunder.Doubt) *doc.Document {
	f := &findings{&page{}, r, doubts}
	f.chapter("Sizes")
	f.sizes()
	return &f.Document
}

// sizes says all of it.
func (f *findings) sizes() {
	f.Add(f.table())
	f.agreement()
	f.places()
	f.warnings()
	f.suspects()
	f.either()
	f.setAside()
	f.undetermined()
}

// CheckWords says what would show a wrong reading of a size.
var CheckWords = map[adjust.Check]string{
	adjust.OthersCheck:   "others",
	adjust.RepeatsCheck:  "repeats",
	adjust.NothingChecks: "nothing",
}

// table lists the sizes as a machinist reads them.
func (f *findings) table() *doc.Table {
	t := &doc.Table{Name: "sizes", Columns: []doc.Column{
		plain("size"),
		{Name: "found", Head: unitName(), Within: within(), Weight: doc.Large},
		{Name: "beside", Head: unitName(), Within: within(), View: doc.Second, Tone: doc.Quiet},
		{Name: "near", Head: doc.Plain("nearest 1/64 in"), Tone: doc.Quiet},
		{Name: "readings", Head: doc.Plain("readings")},
		{Name: "checked", Head: doc.Plain("checked by")},
		{Name: "what", Head: doc.Plain("what it is"), Tone: doc.Quiet, Where: doc.Roomy},
	}}
	for _, s := range f.r.Sizes {
		t.Add(f.row(s))
		if e := s.Extent; e != nil {
			t.Add(extentRow("tightest", e.Least, e.ULeast, e.LeastBy))
			t.Add(extentRow("slackest", e.Most, e.UMost, e.MostBy))
		}
	}
	return t
}

func (f *findings) row(s adjust.Size) doc.Cells {
	cells := doc.Cells{"size": size(s.ID), "readings": doc.Say("%d", s.Readings), "what": doc.Plain(f.r.Job.Size(s.ID).Say)}
	if !s.Determined {
		cells["found"] = notFound()
		return cells
	}
	cells["found"] = doc.Show(measured(s.Value, s.U, s.Dimension))
	cells["beside"] = cells["found"]
	cells["near"] = f.near(s)
	cells["checked"] = checked(s)
	return cells
}

// checked says what would show a wrong reading of a size.
func checked(s adjust.Size) doc.Text {
	switch {
	case s.U == 0:
		return doc.Plain("given")
	case s.Check != adjust.OthersCheck:
		return doc.Judged(doc.Doubtful, CheckWords[s.Check]+" !")
	}
	return doc.Judged(doc.Good, CheckWords[s.Check])
}

// near writes a size as a rule has it, and a pitch in threads per inch.
func (f *findings) near(s adjust.Size) doc.Text {
	switch kind := f.r.Job.Size(s.ID).Kind; {
	case kind == trade.Pitch:
		return doc.Say("%.2f tpi", unit.MillimetresPerInch/s.Value)
	case kind == trade.Module || s.Dimension != unit.Length:
		return nil
	}
	return doc.Plain(unit.FractionText(s.Value, 64))
}

func extentRow(name string, value, u float64, by string) doc.Cells {
	found := doc.Show(measured(value, u, unit.Length))
	return doc.Cells{"size": doc.Plain("  " + name), "found": found, "beside": found, "checked": doc.Plain("found by " + by)}
}

// agreement says whether the readings fit each other. Where they do not, a
// warning says so.
func (f *findings) agreement() {
	switch {
	case f.r.Dof == 0:
		f.apart("Nothing is read twice over: no reading checks another.")
	case !f.r.Scatters():
		f.apart("The readings agree: chi-square %.1f where about %d is expected (chance %.2g).", f.r.Chi2, f.r.Dof, f.r.P)
	}
}

// places lists holes, circles and lines.
func (f *findings) places() {
	if len(f.r.Places) > 0 {
		f.chapter("Places")
		f.Add(placesTable(f.r))
	}
}

// Places says where holes, circles and lines were found; nothing where there are none.
func Places(r *adjust.Result) *doc.Document {
	if len(r.Places) == 0 {
		return nil
	}
	p := titled("Holes, circles and lines")
	p.Add(placesTable(r))
	return &p.Document
}

func placesTable(r *adjust.Result) *doc.Table {
	t := &doc.Table{Name: "places", Columns: []doc.Column{plain("place"), plain("x"), plain("y"), plain("±x"), plain("±y")}}
	for i := range t.Columns[1:] {
		t.Columns[i+1].Right = true
	}
	for _, place := range r.Places {
		t.Add(placeRow(place))
	}
	return t
}

func placeRow(place adjust.Place) doc.Cells {
	if !place.Determined {
		return doc.Cells{"place": doc.Plain(place.ID), "x": notFound()}
	}
	first := unit.Length
	if place.Line {
		first = unit.Angle
	}
	return doc.Cells{
		"place": doc.Plain(place.ID),
		"x":     doc.Show(amount(place.At[0], first)), "y": doc.Show(length(place.At[1])),
		"±x": doc.Show(amount(half(place.U[0]), first)), "±y": doc.Show(length(half(place.U[1]))),
	}
}

// warnings lists what makes the result doubtful.
func (f *findings) warnings() {
	var lines []doc.Text
	for _, w := range f.r.Warnings {
		text := doc.Show(w.Text)
		if w.Reading != "" {
			text = doc.Say("%s (%s): %s", doc.Name(doc.Reading, w.Reading), f.r.Job.Reading(w.Reading).By, text)
		}
		lines = append(lines, text)
	}
	f.list("Mind", lines)
}

// undetermined lists what cannot be found.
func (f *findings) undetermined() {
	var lines []doc.Text
	for _, u := range f.r.Undetermined {
		lines = append(lines, doc.Plain(u.Text))
	}
	f.list("Cannot be found from these readings", lines)
}

// setAside shows the values that the user left out.
func (f *findings) setAside() {
	var shown []doc.Text
	for _, v := range f.r.Readings {
		if !v.SetAside {
			continue
		}
		line := doc.Say("%s: saw %s", f.valueName(v.ID, v.Index), saw(v))
		if !v.Unknown && !v.Pair {
			line = doc.Say("%s, the others give %s", line, amount(v.Predicted[0], v.Dimension))
		}
		if why := f.r.Job.Reading(v.ID).Why; why != "" {
			line = doc.Say("%s: %s", line, why)
		}
		shown = append(shown, line)
	}
	f.list("Set aside", shown)
}

// saw is what was read.
func saw(v adjust.Value) doc.Text {
	if v.Pair {
		return doc.Say("%s, %s", length(v.Saw[0]), length(v.Saw[1]))
	}
	return doc.Show(amount(v.Saw[0], v.Dimension))
}

// valueName names one value of a reading, with its place in the list only where
// there are several.
func (f *findings) valueName(id string, index int) doc.Text {
	r := f.r.Job.Reading(id)
	name := id
	if len(r.Saw) > 1 {
		name = fmt.Sprintf("%s, value %d", id, index+1)
	}
	return doc.Text{{Words: unit.Words(name + " (" + r.By + ")"), Of: doc.Ref{Kind: doc.Reading, ID: id}}}
}

// relation writes a relation as it stands in the job.
func relation(r *trade.Relation) string { return r.That.Text + " = " + r.Is.Text }
