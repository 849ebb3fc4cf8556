package gauge

import (
	"maps"
	"slices"
	"strings"
	"sync/atomic"
)

// family is one page of the catalogue.
type family struct {
	name    string
	methods []*Method
}

var families = []family{
	{"straight readings", straight},
	{"gauge pieces against round walls", walls},
	{"bores", bores},
	{"tapers", tapers},
	{"dovetails and vees", dovetails},
	{"threads", threads},
	{"arcs", arcs},
	{"holes and centres", holes},
	{"keys, flats, hexagons", keys},
	{"gears", gears},
	{"the general reading", general},
}

// book is a state of the catalogue: it is made once and never changed.
type book struct {
	list        []*Method
	byID        map[string]*Method
	instruments []*Instrument // the last is any other
	pieces      []*Piece      // the last is any other
}

var current = opened(gather(families))

func opened(b *book) *atomic.Pointer[book] {
	var p atomic.Pointer[book]
	p.Store(b)
	return &p
}

func gather(families []family) *book {
	b := &book{byID: map[string]*Method{}, instruments: instruments, pieces: pieces}
	for _, f := range families {
		for _, m := range f.methods {
			m.Family = f.name
			b.list = append(b.list, m)
			b.byID[m.ID] = m
		}
	}
	return b
}

// Add puts a method of the caller's own into the catalogue, after those of its
// family, for everything that looks into it from then on. It panics on one
// that is not complete, or whose id is taken. The catalogue is one for the whole
// program; undo puts it back to what it was before.
func Add(m *Method) (undo func()) {
	if missing := Missing(m); len(missing) > 0 {
		panic("gauge: " + m.ID + " has no " + strings.Join(missing, ", no "))
	}
	before := current.Load()
	if before.byID[m.ID] != nil {
		panic("gauge: there is a method " + m.ID + " already")
	}
	at := len(before.list)
	for i, there := range before.list {
		if there.Family == m.Family {
			at = i + 1
		}
	}
	after := *before
	after.list, after.byID = slices.Insert(slices.Clone(before.list), at, m), maps.Clone(before.byID)
	after.byID[m.ID] = m
	return turnTo(&after)
}

// AddInstrument puts an entry of a kind of instrument into the catalogue, as Add
// does a method.
func AddInstrument(i *Instrument) (undo func()) {
	before := current.Load()
	if missing := MissingOf(i); len(missing) > 0 {
		panic("gauge: the instrument " + string(i.Kind) + " has no " + strings.Join(missing, ", no "))
	}
	if _, known := InstrumentOf(i.Kind); known {
		panic("gauge: there is an entry of the instrument " + string(i.Kind) + " already")
	}
	after := *before
	after.instruments = slices.Insert(slices.Clone(before.instruments), len(before.instruments)-1, i)
	return turnTo(&after)
}

// AddPiece puts an entry of a kind of gauge piece into the catalogue, as Add does
// a method.
func AddPiece(p *Piece) (undo func()) {
	before := current.Load()
	if p.Kind == "" || p.Name == "" {
		panic("gauge: a gauge piece has no Kind or no Name")
	}
	if slices.ContainsFunc(before.pieces, func(there *Piece) bool { return there.Kind == p.Kind }) {
		panic("gauge: there is an entry of the gauge piece " + string(p.Kind) + " already")
	}
	after := *before
	after.pieces = slices.Insert(slices.Clone(before.pieces), len(before.pieces)-1, p)
	return turnTo(&after)
}

// turnTo makes a state the current one; undo turns back to the one before it.
func turnTo(b *book) (undo func()) {
	before := current.Swap(b)
	return func() { current.Store(before) }
}

// Edition stands for a state of the catalogue: two are equal if nothing was put
// in or taken out between them.
type Edition struct{ of *book }

// CurrentEdition returns the edition of now, by which something made out of the
// catalogue knows whether it must be made again.
func CurrentEdition() Edition { return Edition{current.Load()} }

// Methods returns the whole catalogue, family by family. The methods are shared
// and must not be changed.
func Methods() []*Method { return slices.Clone(current.Load().list) }

// Find returns the method with this id.
func Find(id string) (*Method, bool) {
	m, ok := current.Load().byID[id]
	return m, ok
}

// Pairs reports whether readings by the method with this id are pairs.
func Pairs(id string) bool {
	m, ok := Find(id)
	return ok && m.Pairs
}

// The methods that other rooms work by themselves, since what is asked of them
// is this reading and no other.

// ThreeWires is the method over three wires in a screw.
func ThreeWires() *Method { return known("three-wires") }

// GearSpan is the method over several teeth of a gear.
func GearSpan() *Method { return known("gear-span") }

// GearTips is the method over the tips of a gear.
func GearTips() *Method { return known("gear-tips") }

// GearOverPins is the method over two pins in a gear.
func GearOverPins() *Method { return known("gear-over-pins") }

// Touch is the method whose readings are pairs, x and y.
func Touch() *Method { return known("touch") }

func known(id string) *Method {
	m, ok := Find(id)
	if !ok {
		panic("gauge: the catalogue has no " + id)
	}
	return m
}
