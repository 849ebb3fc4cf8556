package jobfile

import (
	"slices"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// How a size meets its mate, and where it comes from.
var (
	wantedKeys = []string{"clearance", "interference", "fit"}
	origins    = words([]trade.Origin{trade.GoesIn, trade.GoesOver, trade.Copies, trade.Is, trade.IsThread})
)

// readNewSizes reads the sizes of the part, which have their ids among
// themselves.
func (r partReader) readNewSizes(p fields) {
	for _, entry := range p.entries("sizes") {
		r.checkID(entry.Key, aPartSize)
		r.made[entry.Key.Text] = len(r.job.Part.Sizes)
		r.job.Part.Sizes = append(r.job.Part.Sizes, r.readNewSize(p, entry))
	}
}

func (r partReader) readNewSize(p fields, entry yamltree.Pair) trade.NewSize {
	s := p.item("sizes", entry.Value, describe("part size", entry.Key))
	size := trade.NewSize{
		ID:      entry.Key.Text,
		Surface: trade.Surface(s.text("surface")),
		From:    trade.Origin(s.which(origins...)),
		Rework:  trade.Rework(s.text("rework")),
		Say:     s.text("say"),
		Pos:     entry.Key.Pos,
	}
	if size.From == trade.IsThread {
		readNewThread(s, &size)
		return size
	}
	size.Kind = trade.SizeKind(s.text("kind"))
	if size.Kind != "" && size.From != "" {
		r.readOrigin(s, &size)
	}
	return size
}

// readNewThread reads a size that is a thread of a standard series.
func readNewThread(s fields, size *trade.NewSize) {
	s.among("kind", []string{string(trade.Diameter)})
	size.Thread = s.text("thread")
	size.Class = s.text("class")
	size.Hand = trade.Hand(s.text("hand"))
}

// readOrigin reads what a size follows from, and how closely.
func (r partReader) readOrigin(s fields, size *trade.NewSize) {
	d := size.Kind.Dimension()
	key, spread := string(size.From), r.measure(d)
	r.readOf(s, size)
	size.Holds = s.quantityIn("holds", spread)
	switch size.From {
	case trade.GoesIn, trade.GoesOver:
		if d != unit.Length {
			r.fault(s.keys[key], `%s: only a length goes in or over; %s has "copies" or "is"`, s.what, dimensionNames[d])
			return
		}
		r.readMeeting(s, size)
	default:
		size.Within = s.quantityIn("within", spread)
		size.Tolerance = r.toleranceClass(s, d)
	}
}

// toleranceClass returns the tolerance class of a length as it is written.
func (r partReader) toleranceClass(s fields, d unit.Dimension) string {
	text := s.text("tolerance")
	if text == "" {
		return ""
	}
	if d != unit.Length {
		r.fault(s.keys["tolerance"], `%s: only a length has a tolerance class; write "within"`, s.what)
	} else if _, err := limits.ParseCode(text); err != nil {
		r.fault(s.at("tolerance"), "%s: %s", s.about("tolerance"), err)
	}
	return text
}

// readOf reads the expression that a size follows from.
func (r partReader) readOf(s fields, size *trade.NewSize) {
	key := string(size.From)
	size.Of = s.formulaOf(key)
	e := r.expression(s, key, ofTheJob, rightSide(expr.DimensionOf(size.Kind.Dimension())))
	if e == nil || len(e.Names()) > 0 {
		return
	}
	n := s.at(key)
	if e.Eval(nil, nil) <= 0 && size.Kind.MustBePositive() {
		r.fault(n, "%s is %s; it must %s", s.about(key), yamltree.Quote(n.Text), positive)
	}
	if q, err := unit.ParseAngle(n.Text); size.Kind == trade.Angle && err == nil && q.IsTaper() {
		r.fault(n, "%s: %s stands for the half angle; give the size the kind half-angle, or write the included angle in degrees",
			s.about(key), yamltree.Quote(n.Text))
	}
}

// readMeeting reads how a size is to meet its mate.
func (r partReader) readMeeting(s fields, size *trade.NewSize) {
	size.Chance = got[float64](s, "chance")
	r.checkSide(s, size)
	switch s.which(wantedKeys...) {
	case "clearance":
		size.Clearance = s.span("clearance")
	case "interference":
		tight := s.span("interference")
		size.Clearance = unit.Range{Low: tight.High.Neg(), High: tight.Low.Neg()}
	case "fit":
		size.Fit = s.text("fit")
	}
}

// namedFit reads a fit, and returns it as it is written.
func (r *values) namedFit(n yamltree.Node, about string) string {
	text := r.text(n, about)
	if text == "" {
		return ""
	}
	if _, err := limits.ParseFit(text); err != nil {
		r.fault(n, "%s: %s", about, err)
	}
	return text
}

// checkSide gives a size the surface that meets its mate, and faults the other.
func (r partReader) checkSide(s fields, size *trade.NewSize) {
	meets, other := trade.Outside, trade.Inside
	if size.From == trade.GoesOver {
		meets, other = other, meets
	}
	switch size.Surface {
	case "":
		size.Surface = meets
	case other:
		r.fault(s.at("surface"), "%s: what %s is %s, not %s", s.what, strings.Replace(string(size.From), "-", " ", 1), meets, other)
	}
}

// formulaOf returns the expression under the key as it was written.
func (f fields) formulaOf(key string) trade.Formula {
	return trade.Formula{Text: f.text(key), Pos: f.at(key).Pos}
}

// designation reads a thread, and returns its name in the tables, empty if it is
// none of them.
func (r *values) designation(n yamltree.Node, about string) string {
	text := r.text(n, about)
	if text == "" {
		return ""
	}
	if thread, known := facts.FindThread(text); known {
		return thread.Designation
	}
	_, of, _ := strings.Cut(about, " in ")
	r.unknown(n, of, "thread", threadList())
	return ""
}

// threadList returns the threads of the tables in the order of the alphabet.
var threadList = sync.OnceValue(func() []string {
	var names []string
	for _, t := range facts.Threads() {
		names = append(names, t.Designation)
	}
	slices.Sort(names)
	return names
})
