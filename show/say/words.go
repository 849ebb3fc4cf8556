package say

import (
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Words is what the stages found of a job piece by piece, in a view: for a page that
// shows each in its own place.
type Words struct {
	job      *trade.Job
	view     unit.View
	p        *meanings
	suspects []suspect
}

// WordsOn returns the words on a job. Found is nil where nothing can be worked out
// of it: then only SetUp and Saw have anything to say.
func WordsOn(job *trade.Job, found *reckon.Found, v unit.View) *Words {
	w := &Words{job: job, view: v}
	if found != nil {
		w.p = &meanings{&findings{page: &page{}, r: found.Result}}
		if w.suspects = w.p.suspectList(); len(w.suspects) > 0 {
			w.p.doubts = found.Doubts()
			w.suspects = w.p.suspectList()
		}
	}
	return w
}

// SetUp says how a reading is set up and read.
func (w *Words) SetUp(r *trade.Reading) string { return SetUp(r, nil) }

// Saw writes each value of a reading as it was read; what goes and stops as one.
func (w *Words) Saw(r *trade.Reading) []string {
	if r.GoNoGo() {
		return []string{GoesAndStops(r)}
	}
	return AsRead(w.job, r)
}

// Suspects lists what the readings contradict.
func (w *Words) Suspects() []adjust.Source { return sources(w.suspects) }

// Suspect says what is wrong with something suspect, then what may have happened,
// each in a line.
func (w *Words) Suspect(source adjust.Source) []string {
	for _, s := range w.suspects {
		if s.source == source {
			return append([]string{s.text.Shown(w.view)}, w.shown(w.p.explained(source, w.Suspects()))...)
		}
	}
	return nil
}

// shown writes texts.
func (w *Words) shown(list []doc.Text) []string {
	var lines []string
	for _, t := range list {
		lines = append(lines, t.Shown(w.view))
	}
	return lines
}

// Either says what cannot be told apart, and what would tell.
func (w *Words) Either() []string {
	var lines []string
	settle := blunder.Settled(w.p.r, w.p.doubts)
	for i, group := range w.p.r.Either {
		line := "One of these is wrong, but the readings cannot tell which: " + doc.Join(w.p.rivals(group), " or ").Shown(w.view) + "."
		if !settle[i].Empty() {
			line += " " + sentence(settle[i].Shown(w.view))
		}
		lines = append(lines, line)
	}
	return lines
}

// Source names where part of an uncertainty comes from.
func (w *Words) Source(s adjust.Source) string { return w.p.shareName(s).Shown(w.view) }

// Advice says why a size is to be read next, and of each candidate what to do and
// what it promises; nothing of one that promises nothing, after the first.
func (w *Words) Advice(a *advise.Advice) (why string, what []string) {
	return Why(a).Shown(w.view), w.shown(Candidates(a))
}

// Working shows every reading that holds a size with its numbers put in.
func (w *Words) Working(size string) *doc.Document { return WorkingOf(w.p.r, size) }

// Meaning says what a candidate would mean for a size: how worn it is then.
func (w *Words) Meaning(s *meant.Size, c meant.Candidate) string {
	return w.p.change(s, c).Shown(w.view)
}

// Telling says how the leaders of a size can be told apart, nothing where they are.
func (w *Words) Telling(s *meant.Size) string {
	if s.Tell == nil {
		return ""
	}
	return w.p.telling(s, s.Tell).Shown(w.view) + "."
}

// Drawing says what the sizes together tell of how the drawing was made.
func (w *Words) Drawing(m *meant.Result) []string {
	lines := w.shown(together(m))
	for _, text := range m.Warnings {
		lines = append(lines, text.Shown(w.view))
	}
	return lines
}

// Chance writes a probability.
func (w *Words) Chance(p float64) string { return percent(p) }

// GoesAndStops says which gauge enters and which does not.
func GoesAndStops(r *trade.Reading) string {
	return "goes " + boundText(r.Goes) + ", stops " + boundText(r.Stops)
}

func boundText(b trade.Bound) string {
	if b.ID != "" {
		return b.ID
	}
	return b.Value.String()
}

// AsRead writes each value of a reading as it was read, to the places that the
// instrument shows.
func AsRead(job *trade.Job, r *trade.Reading) []string {
	places := 0
	if with := job.Instrument(r.With); with != nil {
		places = decimals(with.Resolution.String())
	}
	list := make([]string, len(r.Saw))
	for i, s := range r.Saw {
		list[i] = withPlaces(s.X.String(), places)
		if s.Y.Given() {
			list[i] += " / " + withPlaces(s.Y.String(), places)
		}
	}
	return list
}

// decimals counts the figures behind the point of a number with its unit.
func decimals(text string) int {
	number, _, _ := strings.Cut(text, " ")
	_, behind, _ := strings.Cut(number, ".")
	return len(behind)
}

// withPlaces writes a decimal with so many places at least. A fraction stays as it
// is.
func withPlaces(text string, places int) string {
	number, name, named := strings.Cut(text, " ")
	missing := places - decimals(number)
	if !named || missing <= 0 || strings.Contains(text, "/") {
		return text
	}
	if decimals(number) == 0 {
		number += "."
	}
	return number + strings.Repeat("0", missing) + " " + name
}
