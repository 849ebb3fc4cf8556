package say

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

// Mates says of each pair of mating shapes whether it goes in, where it bears, what
// gaps it has and how far it moves, and whether it passes the opening to its place.
func Mates(answers []mating.Answer) *doc.Document {
	p := &page{}
	for i := range answers {
		p.mate(&answers[i])
	}
	return &p.Document
}

func (p *page) mate(a *mating.Answer) {
	title := "How the shapes mate: " + a.Mate.ID + ", " + lowered(a.Pair.Title)
	if a.Mate.Say != "" {
		title += ", " + a.Mate.Say
	}
	p.chapter("%s", title)
	if !a.Known() {
		p.say("It cannot be said: %s not found yet. `%s` says what to read.", isOrAre(a.Open),
			doc.Do(doc.Action{Verb: "next", Words: "Read next"}))
		return
	}
	p.say("%s", goesIn(a))
	p.gaps(a)
	for i, b := range a.Bears {
		space := doc.Next
		if i == 0 {
			space = doc.Apart
		}
		p.Add(doc.Paragraph{Words: bears(b), Space: space})
	}
	if a.GoesIn() {
		p.say("%s", moves(a))
	}
	p.passage(a.Entry)
	for _, text := range a.Warnings {
		p.say("%s", warning(doc.Plain(sentence(text))))
	}
	p.Add(doc.Picture{Draw: func(v unit.View) (*ink.Sheet, error) { return picture.Mates(a, v.Unit(), mateWidth, mateHeight) }})
}

// The size of a picture of mating shapes, in mm.
const mateWidth, mateHeight = 150.0, 90.0

func isOrAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " is"
	}
	return joined(names) + " are"
}

// goesIn says whether it goes in and how surely.
func goesIn(a *mating.Answer) doc.Text {
	said := doc.Say("It goes in: the smallest gap is %s", length(a.Gap))
	if !a.GoesIn() {
		said = doc.Say("%s: it overlaps by %s at the tightest place", alarm(doc.Plain("It does not go in")), length(-a.Gap))
	}
	return doc.Say("%s. With what is not known of the sizes, 90 %% between %s and %s, it fits in %s.",
		said, length(a.Spread[0]), length(a.Spread[2]), often(a.Chance))
}

// gaps lists the gap along each face.
func (p *page) gaps(a *mating.Answer) {
	t := &doc.Table{Name: "gaps", Space: doc.Apart, Columns: []doc.Column{plain("where"), plain("smallest gap"), plain("largest gap")}}
	for _, face := range a.Faces {
		t.Add(doc.Cells{"where": doc.Plain(face.Name), "smallest gap": doc.Show(length(face.Least)), "largest gap": doc.Show(length(face.Most))})
	}
	p.Add(t)
}

// bears says where it bears, and what the rest of the face stands off by.
func bears(b mating.Bearing) doc.Text {
	said := doc.Say("Pressed %s it bears %s", b.Pressed, string(b.On))
	if rest := map[mating.Place]string{
		mating.OnMiddle: "the corners then stand off by ", mating.OnCorners: "the middle then stands off by ",
		mating.OnShaft: "in the hub's it then stands off by ", mating.OnHub: "in the shaft's it then stands off by ",
	}[b.On]; rest != "" && b.StandsOff > 0 {
		said = doc.Say("%s; %s%s", said, rest, length(b.StandsOff))
	}
	if sure := 0.9995; b.Chance < sure {
		said = doc.Say("%s (this in %s)", said, often(b.Chance))
	}
	return doc.Say("%s.", said)
}

// moves says how far it slides and turns before it touches.
func moves(a *mating.Answer) doc.Text {
	var ways []doc.Text
	for _, s := range a.Slides {
		far := doc.Plain("freely")
		if !math.IsInf(s.Far, 1) {
			far = doc.Show(length(s.Far))
		}
		ways = append(ways, doc.Say("%s %s", far, s.Way))
	}
	turns := doc.Plain("turns all the way round")
	if a.Twist < math.Pi {
		turns = doc.Say("turns %s each way before it binds", amount(a.Twist, unit.Angle))
	}
	return doc.Say("From its place it slides %s. In the plane it %s.", doc.Join(ways, ", "), turns)
}

// passage says how it passes the opening to its place.
func (p *page) passage(e *mating.Passage) {
	if e == nil {
		return
	}
	best := e.Attitudes[0]
	opening := strings.ReplaceAll(string(e.Kind.ID), "-", " ")
	said := doc.Say("It passes the %s, best %s: %s to spare.", opening, best.Name, length(best.Spare))
	if !e.Passes() {
		said = doc.Say("%s the %s: even %s it lacks %s.", alarm(doc.Plain("It does not pass")), opening, best.Name, length(-best.Spare))
	}
	p.apart("%s It passes in %s.", said, often(e.Chance))
	t := &doc.Table{Name: "passage", Columns: []doc.Column{plain("offered"), plain("needs"), plain("to spare")}}
	for _, way := range e.Attitudes {
		t.Add(doc.Cells{"offered": doc.Plain(way.Name), "needs": needs(way), "to spare": doc.Show(length(way.Spare))})
	}
	p.Add(t)
}

func needs(way mating.Attitude) doc.Text {
	var sides []doc.Text
	for _, mm := range way.Needs {
		sides = append(sides, doc.Show(length(mm)))
	}
	return doc.Join(sides, " by ")
}
