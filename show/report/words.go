package report

import (
	"slices"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
)

// Words says what the stages found of a job piece by piece, in the words of the
// sheet: for a page that shows each in its own place.
type Words struct {
	job      *trade.Job
	p        *printer
	suspects []suspect
}

// WordsOn returns the words on a job. Found is nil where nothing can be worked
// out of it: then only SetUp and Saw have anything to say.
func WordsOn(job *trade.Job, found *reckon.Found) *Words {
	w := &Words{job: job}
	if found != nil {
		w.p = &printer{r: found.Result, units: job.Shown()}
		if w.suspects = w.p.suspectList(); len(w.suspects) > 0 {
			w.p.doubts = found.Doubts()
		}
	}
	return w
}

// SetUp says how a reading is set up and read.
func (w *Words) SetUp(r *trade.Reading) string { return setUp(r, nil) }

// Saw writes each value of a reading as it was read; what goes and stops as one.
func (w *Words) Saw(r *trade.Reading) []string {
	if r.GoNoGo() {
		return []string{"goes " + boundText(r.Goes) + ", stops " + boundText(r.Stops)}
	}
	return values(w.job, r)
}

// Suspects lists what the readings contradict.
func (w *Words) Suspects() []adjust.Source {
	var list []adjust.Source
	for _, s := range w.suspects {
		list = append(list, s.source)
	}
	return list
}

// Suspect says what is wrong with something suspect, then what may have
// happened, each in a line.
func (w *Words) Suspect(source adjust.Source) []string {
	i := slices.IndexFunc(w.suspects, func(s suspect) bool { return s.source == source })
	if i < 0 {
		return nil
	}
	return append([]string{w.suspects[i].text}, w.p.explained(source, w.Suspects())...)
}

// Either says what cannot be told apart, and what would tell.
func (w *Words) Either() []string {
	var lines []string
	settle := settledBy(w.p.r, w.p.doubts)
	for i, group := range w.p.r.Either {
		line := "One of these is wrong, but the readings cannot tell which: " + strings.Join(w.p.rivals(group), " or ") + "."
		if settle[i] != "" {
			line += " " + sentence(settle[i])
		}
		lines = append(lines, line)
	}
	return lines
}

// Source names where part of an uncertainty comes from.
func (w *Words) Source(s adjust.Source) string { return w.p.shareName(s) }

// Advice says why a size is to be read next, and of each candidate what to do
// and what it promises; nothing of one that promises nothing, after the first.
func (w *Words) Advice(a *advise.Advice) (why string, what []string) {
	g := &pages{}
	p := *w.p
	p.pages = g
	c := &counsel{printer: &p, a: a}
	for i := range a.Best {
		said := c.sentence(&a.Best[i]) + c.cost(&a.Best[i])
		if i > 0 && c.tellsNothing(&a.Best[i]) {
			said = ""
		}
		what = append(what, said)
	}
	g.begin("")
	c.why()
	var said []string
	for _, chapter := range g.all() {
		for _, block := range chapter.Blocks {
			if b, ok := block.(booklet.Paragraph); ok {
				said = append(said, b.Words)
			}
		}
	}
	return strings.Join(said, " "), what
}

// Working shows every reading that holds a size with its numbers put in.
func (w *Words) Working(size string) []booklet.Chapter {
	p := *w.p
	p.style, p.pages = Style{Colour: true}, &pages{}
	p.pages.begin("Worked with its numbers")
	for _, working := range p.r.Workings() {
		if holds(working.Reading, size) {
			p.worked(working)
		}
	}
	return p.pages.all()
}

// holds reports whether a reading has to do with a size, gauge piece or hole.
func holds(r *trade.Reading, id string) bool {
	notInNames := func(c rune) bool { return c != '_' && !unicode.IsLetter(c) && !unicode.IsDigit(c) }
	return slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return a.ID == id }) ||
		slices.Contains(strings.FieldsFunc(r.That, notInNames), id)
}

// Meaning says what a candidate would mean for a size: how worn it is then.
func (w *Words) Meaning(s *meant.Size, c meant.Candidate) string {
	return strings.TrimPrefix(w.p.change(s, c), ", ")
}

// Telling says how the leaders of a size can be told apart, nothing where they
// are.
func (w *Words) Telling(s *meant.Size) string {
	if s.Tell == nil {
		return ""
	}
	return w.p.telling(s, s.Tell) + "."
}

// Drawing says what the sizes together tell of how the drawing was made.
func (w *Words) Drawing(m *meant.Result) []string {
	var lines []string
	for _, set := range m.Sets {
		if set.P >= worthSaying {
			lines = append(lines, setText(set)+".")
		}
	}
	if len(m.Sizes) >= fewestForShares {
		lines = append(lines, systemsText(m.Shares))
	}
	if m.Quantum != nil {
		lines = append(lines, quantumText(m))
	}
	return append(lines, m.Warnings...)
}

// Chance writes a probability.
func (w *Words) Chance(p float64) string { return percent(p) }
