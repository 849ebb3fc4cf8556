package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Mates writes of each pair of mating shapes whether it goes in, where it bears,
// what gaps it has and how far it moves, and whether it passes the opening to
// its place. Without any nothing is written.
func Mates(w io.Writer, answers []mating.Answer, style Style) error {
	if len(answers) == 0 {
		return nil
	}
	p := &printer{w: w, r: answers[0].Found, units: answers[0].Found.Job.Shown(), style: style}
	return p.report(func() {
		for i := range answers {
			p.mate(&answers[i])
		}
	})
}

func (p *printer) mate(a *mating.Answer) {
	title := "How the shapes mate: " + a.Mate.ID + ", " + lowered(a.Pair.Title)
	if a.Mate.Say != "" {
		title += ", " + a.Mate.Say
	}
	p.heading(title)
	if !a.Known() {
		p.paragraph("", fmt.Sprintf("It cannot be said: %s not found yet. `oddleg next` says what to read.", isOrAre(a.Open)))
		return
	}
	p.paragraph("", p.goesIn(a))
	p.gaps(a)
	p.line("")
	for _, b := range a.Bears {
		p.paragraph("", p.bears(b))
	}
	if a.GoesIn() {
		p.paragraph("", p.moves(a))
	}
	p.passage(a.Entry)
	for _, text := range a.Warnings {
		p.paragraph("", p.paint(yellow, sentence(text)))
	}
}

func isOrAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " is"
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + " are"
}

// goesIn says whether it goes in and how surely.
func (p *printer) goesIn(a *mating.Answer) string {
	show := func(mm float64) string { return unit.ShowLength(mm, p.units) }
	said := "It goes in: the smallest gap is " + show(a.Gap)
	if !a.GoesIn() {
		said = p.paint(red, "It does not go in") + ": it overlaps by " + show(-a.Gap) + " at the tightest place"
	}
	return fmt.Sprintf("%s. With what is not known of the sizes, 90 %% between %s and %s, it fits in %s.",
		said, show(a.Spread[0]), show(a.Spread[2]), often(a.Chance))
}

// gaps lists the gap along each face.
func (p *printer) gaps(a *mating.Answer) {
	p.line("")
	rows := [][]string{{"where", "smallest gap", "largest gap"}}
	for _, face := range a.Faces {
		rows = append(rows, []string{face.Name, p.amount(face.Least, unit.Length), p.amount(face.Most, unit.Length)})
	}
	p.table(rows)
}

// bears says where it bears, and what the rest of the face stands off by.
func (p *printer) bears(b mating.Bearing) string {
	said := "Pressed " + b.Pressed + " it bears " + string(b.On)
	if rest := map[mating.Place]string{
		mating.OnMiddle: "the corners then stand off by ", mating.OnCorners: "the middle then stands off by ",
		mating.OnShaft: "in the hub's it then stands off by ", mating.OnHub: "in the shaft's it then stands off by ",
	}[b.On]; rest != "" && b.StandsOff > 0 {
		said += "; " + rest + unit.ShowLength(b.StandsOff, p.units)
	}
	if sure := 0.9995; b.Chance < sure {
		said += fmt.Sprintf(" (this in %s)", often(b.Chance))
	}
	return said + "."
}

// moves says how far it slides and turns before it touches.
func (p *printer) moves(a *mating.Answer) string {
	var ways []string
	for _, s := range a.Slides {
		far := "freely"
		if !math.IsInf(s.Far, 1) {
			far = unit.ShowLength(s.Far, p.units)
		}
		ways = append(ways, far+" "+s.Way)
	}
	turns := "turns all the way round"
	if a.Twist < math.Pi {
		turns = "turns " + unit.ShowAngle(a.Twist) + " each way before it binds"
	}
	return "From its place it slides " + strings.Join(ways, ", ") + ". In the plane it " + turns + "."
}

// passage says how it passes the opening to its place.
func (p *printer) passage(e *mating.Passage) {
	if e == nil {
		return
	}
	p.line("")
	best := e.Attitudes[0]
	opening := strings.ReplaceAll(string(e.Kind.ID), "-", " ")
	said := fmt.Sprintf("It passes the %s, best %s: %s to spare.", opening, best.Name, unit.ShowLength(best.Spare, p.units))
	if !e.Passes() {
		said = fmt.Sprintf("%s the %s: even %s it lacks %s.", p.paint(red, "It does not pass"), opening, best.Name, unit.ShowLength(-best.Spare, p.units))
	}
	p.paragraph("", fmt.Sprintf("%s It passes in %s.", said, often(e.Chance)))
	rows := [][]string{{"offered", "needs", "to spare"}}
	for _, way := range e.Attitudes {
		rows = append(rows, []string{way.Name, p.needs(way), p.amount(way.Spare, unit.Length)})
	}
	p.table(rows)
}

func (p *printer) needs(way mating.Attitude) string {
	var sides []string
	for _, mm := range way.Needs {
		sides = append(sides, p.amount(mm, unit.Length))
	}
	return strings.Join(sides, " by ")
}
