package say

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Meant says what the drawing seems to have said of each size: the candidates with
// their chances, where they lie about the reading, and what would settle what is
// open. Without sizes there is nothing to say.
func Meant(r *adjust.Result, m *meant.Result) *doc.Document {
	p := &meanings{&findings{page: &page{}, r: r}}
	p.meant(m)
	return &p.Document
}

// meanings puts what was meant into words.
type meanings struct{ *findings }

func (p *meanings) meant(m *meant.Result) {
	if len(m.Sizes) == 0 {
		return
	}
	p.chapter("What was meant")
	if len(p.suspectList()) > 0 {
		p.Add(doc.Paragraph{Words: warning(doc.Plain("taking the readings as they stand, the suspect ones too: settle these first"))})
	}
	p.Add(doc.Paragraph{Where: doc.Letters, Whole: true, Words: doc.Plain(
		"on each line === is the reading, ± 95 %, and each figure a candidate: its chance in tenths, + for less than one")})
	t := p.table(m)
	t.Space = doc.Apart
	p.Add(t)
	p.open(m)
}

// table lists the candidates, with a picture made of letters in the last column.
func (p *meanings) table(m *meant.Result) *doc.Table {
	t := &doc.Table{Name: "meant", Columns: []doc.Column{
		plain("size"), plain("meant"), plain("chance"),
		{Name: "line", Where: doc.Letters},
	}}
	for i := range m.Sizes {
		p.rows(t, &m.Sizes[i])
	}
	return t
}

// What is listed of a size below the leader.
const (
	mostListed  = 4
	LeastListed = 0.05 // the chance of one that is named
)

// Headline says in one line what was meant by a size.
func Headline(r *adjust.Result, s *meant.Size) doc.Text {
	p := &meanings{&findings{page: &page{}, r: r}}
	likely := s.Likely()
	if len(likely) == 0 || likely[0].P < s.NoRound {
		kind := "no round size"
		if r.Job.Size(s.ID).Kind.Dimension() == unit.Angle {
			kind = "no round angle"
		}
		return doc.Say("%s (%s)", kind, percent(s.NoRound))
	}
	meaning := doc.Plain(likely[0].Text)
	if change := p.change(s, likely[0]); change != nil {
		meaning = doc.Say("%s, %s", meaning, change)
	}
	return doc.Say("%s (%s)", meaning, chanceOf(s, likely[0]))
}

// Telling says how the leaders of a size that cannot be told apart yet can be.
func Telling(r *adjust.Result, s *meant.Size) doc.Text {
	return (&meanings{&findings{page: &page{}, r: r}}).telling(s, s.Tell)
}

// Reach is the range that a picture of a size shows: the reading's band and the
// candidates, and a little on either side.
func Reach(r *adjust.Result, s *meant.Size) (low, high float64) { return reachOf(s, r.Size(s.ID)) }

// noRound says that no candidate was meant, and what a half angle may be then.
func (p *meanings) noRound(s *meant.Size) doc.Text {
	kind := p.r.Job.Size(s.ID).Kind
	switch {
	case kind == trade.HalfAngle:
		return doc.Say("no round angle; perhaps a taper: %s", doc.Do(doc.Action{Verb: "taper", Words: "which taper"}))
	case kind.Dimension() == unit.Angle:
		return doc.Plain("no round angle")
	}
	return doc.Plain("no round size")
}

// rows adds the candidates of one size worth reading, best first.
func (p *meanings) rows(t *doc.Table, s *meant.Size) {
	var rows []doc.Cells
	shown := false
	noRound := func() {
		if !shown && s.NoRound >= LeastListed {
			rows = append(rows, doc.Cells{"meant": p.noRound(s), "chance": doc.Plain(percent(s.NoRound))})
		}
		shown = true
	}
	for i, c := range s.Likely() {
		if c.P < s.NoRound {
			noRound()
		}
		if len(rows) < mostListed && (i == 0 || c.P >= LeastListed) {
			meaning := doc.Plain(c.Text)
			if change := p.change(s, c); change != nil {
				meaning = doc.Say("%s, %s", c.Text, change)
			}
			rows = append(rows, doc.Cells{"meant": meaning, "chance": doc.Plain(chanceOf(s, c))})
		}
	}
	noRound()
	if len(rows) == 0 {
		rows = []doc.Cells{{"meant": p.noRound(s), "chance": doc.Plain(percent(s.NoRound))}}
	}
	rows[0]["size"], rows[0]["line"] = size(s.ID), p.picture(s)
	t.Add(rows[0])
	for _, row := range rows[1:] {
		t.AddOn(row)
	}
}

func chanceOf(s *meant.Size, c meant.Candidate) string {
	if s.Decided {
		return "decided"
	}
	return percent(c.P)
}

// wrongWay is how many standard deviations a change may be beyond explanation
// before it is said that it is none.
const wrongWay = 2

// change says what has become of a size since, if this was meant: worn, or found
// larger or smaller; nothing where it is as it was.
func (p *meanings) change(s *meant.Size, c meant.Candidate) doc.Text {
	size := p.r.Job.Size(s.ID)
	worn := wears(size)
	larger := (c.Off < 0) != (size.Surface == trade.Inside)
	off := felt{math.Abs(c.Off), size.Kind.Dimension()}
	switch {
	case worn && c.Off < 0 && c.Beyond > wrongWay:
		return doc.Say("but found %s %s, which is no wear", off, largerOr(larger))
	case worn && (felt{c.Wear, unit.Length}).nothing():
		return doc.Plain("unworn")
	case worn:
		return doc.Say("%s worn", felt{c.Wear, unit.Length})
	case !off.nothing():
		return doc.Say("found %s %s", off, largerOr(larger))
	}
	return nil
}

// wears reports whether wear is thought to have changed a size.
func wears(size *trade.Size) bool {
	return size.Surface != "" && size.Surface != trade.NoSurface && size.Wear != "" && size.Wear != trade.NoWear
}

func largerOr(larger bool) string {
	if larger {
		return "larger"
	}
	return "smaller"
}

// felt is an amount of wear, written as far as it can be felt: to a hundredth of a
// millimetre, a thou, a hundredth of a degree.
type felt struct {
	x float64
	d unit.Dimension
}

// nothing reports whether it is less than can be felt, in either unit.
func (f felt) nothing() bool {
	scale := 1.0
	if f.d == unit.Angle {
		scale = 180 / math.Pi
	}
	return math.Round(100*scale*f.x) == 0
}

// inchDecimals are three, a thou, and one more where that would show nothing of
// what can be felt in millimetres.
func (f felt) inchDecimals() int {
	const halfThou = 0.0005 * unit.MillimetresPerInch
	if f.x < halfThou {
		return 4
	}
	return 3
}

// Shown writes the amount.
func (f felt) Shown(v unit.View) string {
	switch {
	case f.d == unit.Angle:
		return fmt.Sprintf("%.2f°", f.x*180/math.Pi)
	case v.Unit() == unit.Inch:
		return fmt.Sprintf("%.*f in", f.inchDecimals(), f.x/unit.MillimetresPerInch)
	}
	return fmt.Sprintf("%.2f mm", f.x)
}

// pictureWidth is the number of cells of a picture made of letters.
const pictureWidth = 36

// picture draws the reading's band over the candidates in one line.
func (p *meanings) picture(s *meant.Size) doc.Text {
	found := p.r.Size(s.ID)
	low, high := reachOf(s, found)
	cell := func(x float64) int {
		return max(0, min(pictureWidth-1, int((x-low)/(high-low)*pictureWidth)))
	}
	cells := []byte(strings.Repeat("-", pictureWidth))
	for i := cell(found.Low()); i <= cell(found.High()); i++ {
		cells[i] = '='
	}
	likely := s.Likely()
	for i, c := range slices.Backward(likely) {
		if i == 0 || c.P >= inPicture {
			cells[cell(c.Value)] = tenths(c.P)
		}
	}
	return doc.Say("%s %s %s", amount(low, found.Dimension), string(cells), amount(high, found.Dimension))
}

// tenths writes a probability in one character.
func tenths(p float64) byte {
	if p < 0.1 {
		return '+'
	}
	return byte('0' + min(9, int(10*p)))
}

// inPicture is the probability from which a candidate has its place in a picture.
const inPicture = 0.02

// reachOf returns the range that a picture of a size shows: the reading's band and
// the candidates, and a little on either side.
func reachOf(s *meant.Size, found *adjust.Size) (low, high float64) {
	low, high = found.Low(), found.High()
	for i, c := range s.Likely() {
		if i == 0 || c.P >= inPicture {
			low, high = min(low, c.Value), max(high, c.Value)
		}
	}
	beside := max(0.08*(high-low), 1e-3)
	return low - beside, high + beside
}

// open says what would settle what is open, what a set of sizes has in common, and
// the second opinion.
func (p *meanings) open(m *meant.Result) {
	var lines []doc.Text
	for i := range m.Sizes {
		if t := m.Sizes[i].Tell; t != nil {
			lines = append(lines, doc.Say("%s%s", p.telling(&m.Sizes[i], t), p.nextFor(&m.Sizes[i], t)))
		}
	}
	if m.Question != nil {
		lines = append(lines, question(m.Question))
	}
	lines = append(lines, together(m)...)
	for i, line := range lines {
		space := doc.Next
		if i == 0 {
			space = doc.Apart
		}
		p.Add(doc.Paragraph{Words: line, Space: space})
	}
	for _, text := range m.Warnings {
		p.Add(doc.Paragraph{Words: warning(doc.Show(text))})
	}
}

// fewestForShares is how many sizes say something of a whole machine.
const fewestForShares = 3

// worthSaying is the probability from which a choice is named.
const worthSaying = 0.6

// together says what the sizes together tell of how the drawing was made.
func together(m *meant.Result) []doc.Text {
	var lines []doc.Text
	for _, set := range m.Sets {
		if set.P >= worthSaying {
			lines = append(lines, doc.Say("%s are tied by relations: the drawing seems to have given %s (%s), the rest follows",
				strings.Join(set.Sizes, ", "), strings.Join(set.Designers, ", "), percent(set.P)))
		}
	}
	if len(m.Sizes) >= fewestForShares {
		lines = append(lines, systems(m.Shares))
	}
	if m.Quantum != nil {
		lines = append(lines, secondOpinion(m))
	}
	return lines
}

// hardly reports whether a finer reading will hardly tell two candidates apart.
func (p *meanings) hardly(s *meant.Size, t *meant.Tell) bool { return t.U >= half(p.r.Size(s.ID).U) }

// telling says how the leaders of a size can be told apart.
func (p *meanings) telling(s *meant.Size, t *meant.Tell) doc.Text {
	start := doc.Say("%s: cannot tell %s from %s: ", size(s.ID), t.First, t.Second)
	other := "an unworn one"
	if !wears(p.r.Job.Size(s.ID)) {
		other = "another that was made to the same size"
	}
	switch {
	case math.IsNaN(t.U):
		return doc.Say("%sno reading of this surface will tell; read %s", start, other)
	case p.hardly(s, t):
		return doc.Say("%sit was found between them, and a finer reading will hardly tell; read %s", start, other)
	}
	return doc.Say("%sread it to ±%s to separate these two", start, halfWidth(t.U, unit.Length))
}

// nextFor leads to the readings that tell, where any do.
func (p *meanings) nextFor(s *meant.Size, t *meant.Tell) doc.Text {
	if math.IsNaN(t.U) || p.hardly(s, t) {
		return nil
	}
	want := halfWidth(t.U, unit.Length).Shown(unit.View{In: p.r.Job.Units})
	return doc.Say(" (%s)", doc.Do(doc.Action{
		Verb: "next", Args: []string{"FILE", "--for", s.ID, "--want", strings.ReplaceAll(want, " ", "")}, Words: "what to read for it",
	}))
}

func question(q *meant.Question) doc.Text {
	var answers []string
	for _, a := range q.Answers {
		var then []string
		for _, s := range a.Settles {
			then = append(then, s.ID+" "+s.Text)
		}
		if len(then) == 0 {
			then = []string{"nothing else"}
		}
		answers = append(answers, fmt.Sprintf("if %s, it settles %s", a.Text, strings.Join(then, ", ")))
	}
	return doc.Say("If you know what %s was meant to be, say so with `meant:`: %s.", size(q.Size), strings.Join(answers, "; "))
}

// systems says in what the part seems to have been made.
func systems(shares []meant.Share) doc.Text {
	var parts []string
	for _, s := range shares {
		parts = append(parts, fmt.Sprintf("%s %s", s.System, percent(s.Mean)))
	}
	return doc.Say("How this machine was dimensioned, as far as these sizes tell: %s.", strings.Join(parts, ", "))
}

// secondOpinion is that of a test which knows nothing of the machine.
func secondOpinion(m *meant.Result) doc.Text {
	q := m.Quantum
	text := fmt.Sprintf("Second opinion (Kendall's quantum test, blind to the machine's country): "+
		"%d sizes lie nearest to whole multiples of %s, ", q.Sizes, q.Step)
	if q.Chance > 0.05 {
		return doc.Say("%sbut random ones would as closely in %s of cases: it cannot tell.", text, percent(q.Chance))
	}
	text += fmt.Sprintf("which random ones would in %s of cases.", percent(q.Chance))
	if inInches := m.Inches() > 0.5; inInches != q.InInches {
		text += " This does not agree with the above."
	}
	return doc.Plain(text)
}
