// Package parttest makes parts at random for tests: of every kind, with every
// feature, all of which can be made. All sizes are plain ones in hundredths of
// a millimetre, so that a part needs no readings and no fit.
package parttest

import (
	"fmt"
	"math/rand/v2"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Job returns a job whose part is of this kind. The same source gives the same
// part.
func Job(r *rand.Rand, kind trade.PartKind) *trade.Job {
	m := &maker{Rand: r, part: &trade.Part{Name: "Random " + string(kind), Kind: kind, Material: "080M40", Quantity: 1 + r.IntN(4)}}
	m.shape(kind)
	return &trade.Job{Name: "Random", Units: unit.Millimetre, Part: m.part}
}

// Model returns a part of any kind. It panics where the part is refused, which
// is a fault of this package.
func Model(r *rand.Rand) *part.Model {
	kinds := trade.PartKinds()
	job := Job(r, kinds[r.IntN(len(kinds))])
	model, err := part.Build(job, nil, nil)
	if err != nil {
		panic(fmt.Sprintf("parttest: a %s at random cannot be made: %v", job.Part.Kind, err))
	}
	return model
}

// maker draws the sizes of one part. Lengths are counted in hundredths of a
// millimetre.
type maker struct {
	*rand.Rand
	part *trade.Part
}

func (m *maker) shape(kind trade.PartKind) {
	s := &m.part.Shape
	switch kind {
	case trade.TurnedPart:
		s.Turned = m.turned()
	case trade.SectorShoe:
		s.Shoe = m.shoe()
	case trade.PlatePart:
		s.Plate = m.plate()
	case trade.NutPart:
		s.Nut = m.nut()
	case trade.BushPart:
		s.Bush = m.bush()
	case trade.KeyPart:
		s.Key = m.key()
	case trade.GibPart:
		s.Gib = m.gib()
	case trade.WasherPart:
		s.Washer = m.washer()
	}
}

// between returns a whole number from low to high.
func (m *maker) between(low, high int) int { return low + m.IntN(max(1, high-low+1)) }

// sometimes is true one time in n.
func (m *maker) sometimes(n int) bool { return m.IntN(n) == 0 }

// length is a plain measure of so many hundredths of a millimetre.
func length(hundredths int) trade.Measure { return measure(hundredths, 100, unit.Millimetre) }

// degrees is a plain measure of an angle.
func degrees(whole int) trade.Measure { return measure(whole, 1, unit.Degree) }

func measure(num, den int, u unit.Unit) trade.Measure {
	q, err := unit.New(int64(num), int64(den), u)
	if err != nil {
		panic("parttest: a small fraction does not fit")
	}
	return trade.Measure{Value: q}
}

// named gives a value the name of a size of the part, half of the time.
func (m *maker) named(kind trade.SizeKind, value trade.Measure) trade.Measure {
	if m.sometimes(2) {
		return value
	}
	id := fmt.Sprintf("%s%d", kind, len(m.part.Sizes)+1)
	m.part.Sizes = append(m.part.Sizes, trade.NewSize{
		ID: id, Kind: kind, Surface: trade.Outside, From: trade.Is, Of: trade.Formula{Text: value.Value.String()}, Within: length(m.between(1, 20)).Value,
	})
	return trade.Measure{ID: id}
}

// screw is a thread of the tables: its sizes in hundredths, rounded outwards.
type screw struct {
	designation  string
	major, minor int // of the screw, of the nut
}

// screws are common threads; sizes from the program's own tables.
var screws = []screw{
	{"M6", 600, 492}, {"M8", 800, 665}, {"M10", 1000, 838}, {"M12", 1200, 1011}, {"M16", 1600, 1384}, {"M20", 2000, 1730},
}

// thread adds a thread to the sizes of the part.
func (m *maker) thread(s screw) string {
	id := fmt.Sprintf("thread%d", len(m.part.Sizes)+1)
	m.part.Sizes = append(m.part.Sizes, trade.NewSize{ID: id, From: trade.IsThread, Thread: s.designation, Class: "6g"})
	return id
}

func (m *maker) nut() *trade.NutShape {
	s := screws[m.IntN(len(screws))]
	size := s.major*3/2 + m.between(200, 600)
	n := &trade.NutShape{
		Section: []trade.CrossSection{trade.Hexagon, trade.Square, trade.Round}[m.IntN(3)],
		Size:    m.named(trade.Width, length(size)), Height: length(s.major * 4 / 5), Thread: m.thread(s),
	}
	if m.sometimes(2) {
		n.Chamfer = length(m.between(20, (size-s.minor)/5))
	}
	if n.Section == trade.Round && m.sometimes(2) {
		n.Tommies = length(s.major / 3)
	}
	return n
}

func (m *maker) bush() *trade.BushShape {
	outside := m.between(800, 8000)
	inside := m.between(outside/4, outside*3/4)
	long := m.between(outside/2, outside*2)
	b := &trade.BushShape{
		Outside: m.named(trade.Diameter, length(outside)), Inside: m.named(trade.Diameter, length(inside)),
		Length: m.named(trade.Length, length(long)),
	}
	chamfer := min((outside-inside)/8, long/12)
	if m.sometimes(2) {
		b.Flange, b.FlangeWidth = length(outside+m.between(4*chamfer, outside/2)), length(long/4)
	}
	if m.sometimes(2) {
		b.Chamfer = length(m.between(5, chamfer))
	}
	return b
}

func (m *maker) key() *trade.KeyShape {
	width := m.between(300, 2000)
	height := m.between(width/2, width)
	k := &trade.KeyShape{
		Width: m.named(trade.Width, length(width)), Height: m.named(trade.Height, length(height)),
		Length: length(m.between(width*2, width*6)), RoundEnds: m.sometimes(2),
	}
	if m.sometimes(2) {
		k.Chamfer = length(m.between(10, height/5))
	}
	return k
}

func (m *maker) washer() *trade.WasherShape {
	inside := m.between(300, 4000)
	outside := inside * m.between(14, 30) / 10
	thickness := max(50, inside/m.between(3, 10))
	w := &trade.WasherShape{Outside: length(outside), Inside: m.named(trade.Diameter, length(inside)), Thickness: length(thickness)}
	if m.sometimes(3) {
		w.Chamfer = length(min(thickness/4, (outside-inside)/8))
	}
	return w
}

func (m *maker) gib() *trade.GibShape {
	width, thick := m.between(1500, 5000), m.between(400, 1000)
	long := m.between(width*3, width*8)
	g := &trade.GibShape{Length: length(long), Width: m.named(trade.Width, length(width)), Thick: m.named(trade.Height, length(thick))}
	if m.sometimes(2) {
		g.Thin = length(thick * m.between(60, 90) / 100)
	}
	if m.sometimes(2) {
		g.Angle = degrees(m.between(50, 75))
	}
	for i, n := 0, m.IntN(4); i < n; i++ {
		h := trade.HoleShape{X: length(long * (i + 1) / (n + 1)), Y: length(width * 11 / 20), Diameter: length(min(300, width/8))}
		if m.sometimes(2) {
			h.Depth = length(thick / 4)
		}
		g.Holes = append(g.Holes, h)
	}
	return g
}

func (m *maker) shoe() *trade.ShoeShape {
	width, height := m.between(1200, 3000), m.between(800, 2000)
	s := &trade.ShoeShape{Height: m.named(trade.Height, length(height))}
	if m.sometimes(2) {
		s.Width, s.Length = m.named(trade.Width, length(width)), length(m.between(width, width*2))
	} else {
		inner := m.between(3000, 12000)
		s.Inner, s.Outer = m.named(trade.Radius, length(inner)), m.named(trade.Radius, length(inner+width))
		s.Angle = degrees(57*width/inner + m.between(5, 15))
	}
	if m.sometimes(2) {
		s.Chamfer = length(m.between(20, 80))
	}
	thread := screws[m.IntN(3)]
	switch m.IntN(4) {
	case 0:
		s.Stem = &trade.StemShape{Diameter: length(m.between(400, 900)), Length: length(m.between(1000, 4000)), Offset: length(m.between(-50, 50))}
	case 1:
		s.Stem = &trade.StemShape{Thread: m.thread(thread), Length: length(m.between(1000, 4000))}
	case 2:
		s.Hole = &trade.HoleShape{Thread: m.thread(thread)}
	default:
		s.Hole = &trade.HoleShape{Diameter: length(m.between(300, 800)), Depth: length(height / 2)}
	}
	return s
}
