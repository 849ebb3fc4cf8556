// Package largejob makes jobs of very many readings for tests and benchmarks of
// what the work grows by. No two parts of such a job are alike: tapers, flights of
// steps that are read one by one, in spans and tied by relations, plates of holes,
// rounds read again and again, and here and there a size that nothing settles.
// All share the instruments and gauge pieces of one kit.
package largejob

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Made is a job as a user would write it, and the sizes it was made from.
type Made struct {
	Text  string
	Truth map[string]float64 // mm or radians
}

// Options say what a job shall be like.
type Options struct {
	Slips int // how many of its readings are off by half a millimetre
	Open  int // how many of its sizes nothing settles
}

// Job returns the job as it is read. It panics where it cannot be, which is a
// fault of this package.
func (m *Made) Job() *trade.Job {
	job, err := jobfile.Read("", []byte(m.Text))
	if err != nil {
		panic("largejob: the job made cannot be read: " + err.Error())
	}
	return job
}

// Make makes a job of that many readings. The same seed makes the same job.
func Make(readings int, seed uint64, o Options) *Made {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, uint64(readings))), left: readings, truth: map[string]float64{}}
	m.slips = m.chosen(readings, o.Slips)
	m.kit()
	for i := range o.Open {
		fmt.Fprintf(&m.sizes, "  open%d: {kind: height}\n", i)
	}
	kinds := []func(part int){m.taper, m.flight, m.round, m.taper, m.plate, m.flight, m.round}
	for part := 0; m.left > 0; part++ {
		kinds[m.IntN(len(kinds))](part)
	}
	return &Made{Text: m.text(), Truth: m.truth}
}

// The maximum permissible error of every instrument and the step that it is read
// in, in mm. Its zero and one value about it each scatter by mpe/√6.
const mpe, step = 0.004, 0.001

var scatter = mpe / math.Sqrt(6)

// maker writes a job while it draws it.
type maker struct {
	*rand.Rand
	left  int // readings still to be made
	slips map[int]bool
	truth map[string]float64
	ids   int

	sizes, plans, read, tied, tools strings.Builder
	outside, inside, deep           []instrument
	rollers, blocks, plugs          []piece
}

type instrument struct {
	id   string
	zero float64
}

type piece struct {
	id   string
	size float64
}

// chosen returns so many different numbers below n.
func (m *maker) chosen(n, count int) map[int]bool {
	list := map[int]bool{}
	for _, i := range m.Perm(n)[:min(n, count)] {
		list[i+1] = true
	}
	return list
}

// kit draws the instruments and pieces that all share: more of them in a large
// job, but far fewer than its readings.
func (m *maker) kit() {
	more := int(math.Log10(float64(m.left)))
	m.outside = m.instruments("mic", "micrometer", 2+more)
	m.inside = m.instruments("stick", "micrometer", 1+more/2)
	m.deep = m.instruments("deep", "depth-micrometer", 1+more)
	m.rollers = m.pieces("roll", "roller", 2+more, 6)
	m.blocks = m.pieces("block", "block", 2+more, 10)
	m.plugs = m.pieces("plug", "plug", 1+more, 8)
}

func (m *maker) instruments(name, kind string, count int) []instrument {
	var list []instrument
	for i := range count {
		list = append(list, instrument{fmt.Sprint(name, i), scatter * m.NormFloat64()})
		fmt.Fprintf(&m.tools, "  %s%d: {kind: %s, resolution: %g, mpe: %g}\n", name, i, kind, step, mpe)
	}
	return list
}

func (m *maker) pieces(name, kind string, count int, first float64) []piece {
	const tolerance = 0.002
	var list []piece
	for i := range count {
		size := first * (1 + 0.4*float64(i))
		list = append(list, piece{fmt.Sprint(name, i), size + tolerance*(2*m.Float64()-1)})
		fmt.Fprintf(&m.tools, "  %s%d: {kind: %s, size: %g, tolerance: %g}\n", name, i, kind, size, tolerance)
	}
	return list
}

// text puts the sections together.
func (m *maker) text() string {
	var b strings.Builder
	section := func(name string, body *strings.Builder) {
		if body.Len() > 0 {
			fmt.Fprintf(&b, "%s:\n%s", name, body)
		}
	}
	b.WriteString("oddleg: 1\njob: Made to be large\nunits: mm\n")
	section("kit", &m.tools)
	section("sizes", &m.sizes)
	section("plans", &m.plans)
	section("readings", &m.read)
	section("relations", &m.tied)
	return b.String()
}

// size adds a size and returns it.
func (m *maker) size(id, keys string, truth float64) float64 {
	fmt.Fprintf(&m.sizes, "  %s: {%s}\n", id, keys)
	m.truth[id] = truth
	return truth
}

// take adds a reading of one to three values that shows this, if there are any
// left to make.
func (m *maker) take(with instrument, shows float64, by string) {
	if m.left == 0 {
		return
	}
	m.left--
	m.ids++
	if m.slips[m.ids] {
		shows += 0.5
	}
	values := make([]string, 1+m.IntN(3))
	for i := range values {
		value := shows + with.zero + scatter*m.NormFloat64()
		values[i] = fmt.Sprintf("%.3f", math.Round(value/step)*step)
	}
	fmt.Fprintf(&m.read, "  - {id: r%d, %s, with: %s, saw: [%s]}\n", m.ids, by, with.id, strings.Join(values, ", "))
}

func pick[T any](m *maker, list []T) T { return list[m.IntN(len(list))] }
