package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// unknownKind says what a column of the adjustment stands for.
type unknownKind uint8

const (
	sizeUnknown unknownKind = iota
	pieceUnknown
	zeroUnknown
	formUnknown // departure from form of one size at one reading
	feelUnknown // of a reading seated once
	placeUnknown
)

// unknown is one column of the adjustment.
type unknown struct {
	kind unknownKind
	id   string // size, piece, instrument, hole or place
	axis int    // of a place: 0 for x or β, 1 for y or p
}

// observation is one row of the adjustment: a value of a reading (or the mean
// of all its values), or a prior.
type observation struct {
	equation lsq.Equation
	sigma    float64
	source   Source
	values   []int // indices into model.values of the values it stands for
}

// shown is one value of a reading as the result lists it.
type shown struct {
	reading     *forward
	index       int
	seen        trade.Seen
	observation int // -1 where it is set aside
}

// model is a job in the terms of least squares.
type model struct {
	job          *trade.Job
	unknowns     []unknown
	sizeAt       map[string]int // the place of a size among those of the job
	sizes        map[string]int // column of a size; absent where it is exact
	pieces       map[string]int
	zeros        map[string]int
	places       map[string][2]int // columns of a hole or place, -1 for a coordinate fixed at 0
	exact        map[string]float64
	forms        map[string][]formAt
	forwards     []*forward // one for each reading, in the job's order
	values       []shown
	valuesFrom   map[string]int // by reading, the first of its values
	observations []observation
	constraints  []lsq.Equation
	relations    []*relation // one for each relation, in the job's order
	tied         []int       // the relation that each constraint comes from
	touching     [][]int     // by column, the readings that it stands in, then the relations, counted on
	scale        float64     // a length typical of the job, for start values
}

// formAt is the unknown departure from form of a size where one reading met it.
type formAt struct {
	reading string
	column  int
}

// compile turns a checked job into observations and constraints.
func compile(job *trade.Job) *model {
	m := &model{
		job:    job,
		sizeAt: make(map[string]int, len(job.Sizes)),
		sizes:  map[string]int{},
		pieces: map[string]int{},
		zeros:  map[string]int{},
		places: map[string][2]int{},
		exact:  map[string]float64{},
		forms:  map[string][]formAt{},

		valuesFrom: map[string]int{},
	}
	m.addSizes()
	m.addPieces()
	m.addInstruments()
	m.addPlaces()
	for i := range job.Readings {
		m.addReading(&job.Readings[i])
	}
	for i := range job.Relations {
		m.addRelation(i)
	}
	m.scale = m.typicalLength()
	m.touch()
	return m
}

// size returns the size with this id, nil if there is none: as Job.Size does,
// but without looking through all of them.
func (m *model) size(id string) *trade.Size {
	if i, ok := m.sizeAt[id]; ok {
		return &m.job.Sizes[i]
	}
	return nil
}

// touch notes which readings and relations each column stands in.
func (m *model) touch() {
	m.touching = make([][]int, len(m.unknowns))
	note := func(slots []slot, e int) {
		for _, s := range slots {
			if s.column >= 0 {
				m.touching[s.column] = append(m.touching[s.column], e)
			}
		}
	}
	for i, f := range m.forwards {
		note(f.slots, i)
	}
	for i, r := range m.relations {
		note(r.left.slots, len(m.forwards)+i)
		note(r.right.slots, len(m.forwards)+i)
	}
}

func (m *model) column(u unknown) int {
	m.unknowns = append(m.unknowns, u)
	return len(m.unknowns) - 1
}

// observe adds an observation and returns its index.
func (m *model) observe(o observation) int {
	m.observations = append(m.observations, o)
	return len(m.observations) - 1
}

// prior adds the observation that an unknown is value, give or take sigma.
func (m *model) prior(column int, value, sigma float64, source Source) {
	m.observe(observation{equation: prior{column, value}, sigma: sigma, source: source})
}

func (m *model) addSizes() {
	for i := range m.job.Sizes {
		size := &m.job.Sizes[i]
		m.sizeAt[size.ID] = i
		if size.Known.Exact() {
			m.exact[size.ID] = size.Known.Value.Inside()
			continue
		}
		column := m.column(unknown{kind: sizeUnknown, id: size.ID})
		m.sizes[size.ID] = column
		if size.Known.Given() {
			m.prior(column, size.Known.Value.Inside(), spread(size.Known.Within, size.Known.U), Source{Kind: FromKnown, ID: size.ID})
		}
	}
}

// spread returns the standard uncertainty that ±within or u states.
func spread(within, u unit.Quantity) float64 {
	if u.Given() {
		return u.Inside()
	}
	return within.Inside() / math.Sqrt(3)
}

// addPieces makes an unknown of every gauge piece that a reading uses and that
// has a tolerance; the others are exact.
func (m *model) addPieces() {
	used := usedIDs(m.job)
	for i := range m.job.Pieces {
		piece := &m.job.Pieces[i]
		size := piece.Size.Inside()
		if !piece.Tolerance.Given() || piece.Tolerance.Sign() == 0 || !used[piece.ID] {
			m.exact[piece.ID] = size
			continue
		}
		column := m.column(unknown{kind: pieceUnknown, id: piece.ID})
		m.pieces[piece.ID] = column
		m.prior(column, size, spread(piece.Tolerance, unit.Quantity{}), Source{Kind: FromPiece, ID: piece.ID})
	}
}

// usedIDs returns the ids that readings and relations name.
func usedIDs(job *trade.Job) map[string]bool {
	used := map[string]bool{}
	note := func(f trade.Formula) {
		for _, name := range f.Names() {
			used[name] = true
		}
	}
	for _, r := range job.Readings {
		for _, arg := range r.Of {
			used[arg.ID] = true
		}
		used[r.Goes.ID], used[r.Stops.ID] = true, true
		note(r.That)
	}
	for _, r := range job.Relations {
		note(r.That)
		note(r.Is)
	}
	return used
}

// addInstruments makes an unknown of the zero of every instrument that a
// reading uses. The readout of a touch is left out: its zero is the user's own.
func (m *model) addInstruments() {
	used := map[string]bool{}
	for _, r := range m.job.Readings {
		used[r.With] = used[r.With] || !gauge.Pairs(r.By)
	}
	for i := range m.job.Instruments {
		instrument := &m.job.Instruments[i]
		zero := errorOf(instrument).Zero
		if !used[instrument.ID] || zero == 0 {
			continue
		}
		column := m.column(unknown{kind: zeroUnknown, id: instrument.ID})
		m.zeros[instrument.ID] = column
		m.prior(column, 0, zero, Source{Kind: FromInstrument, ID: instrument.ID})
	}
}

// errorOf returns the error of an instrument of a checked job.
func errorOf(instrument *trade.Instrument) gauge.Error {
	e, err := gauge.ErrorOf(instrument)
	if err != nil {
		panic("adjust: the job was not checked: an instrument does not state its error")
	}
	return e
}

func (m *model) addPlaces() {
	for _, plan := range m.job.Plans {
		for i, hole := range plan.Holes {
			columns := [2]int{-1, -1}
			if i > 0 {
				columns[0] = m.column(unknown{kind: placeUnknown, id: hole})
			}
			if i > 1 {
				columns[1] = m.column(unknown{kind: placeUnknown, id: hole, axis: 1})
			}
			m.places[hole] = columns
		}
	}
	for _, place := range m.job.Places {
		m.places[place.ID] = [2]int{
			m.column(unknown{kind: placeUnknown, id: place.ID}),
			m.column(unknown{kind: placeUnknown, id: place.ID, axis: 1}),
		}
	}
}

// addReading adds the observations of one reading.
func (m *model) addReading(r *trade.Reading) {
	f := m.forward(r)
	f.middle = m.middle(r)
	m.valuesFrom[r.ID] = len(m.values)
	m.forwards = append(m.forwards, f)
	if r.GoNoGo() {
		m.addGoNoGo(f)
		return
	}
	f.sigma = valueSigma(m.job, r, f)
	kept := m.listValues(f)
	if f.countsOnce(kept) {
		m.addMean(f, kept)
		return
	}
	for _, v := range kept {
		value := &m.values[v]
		value.observation = m.observe(observation{
			equation: f.misclosure(value.seen),
			sigma:    f.sigma.ofOne(),
			source:   Source{Kind: FromReading, ID: r.ID, Index: value.index},
			values:   []int{v},
		})
	}
}

// listValues lists all values of a reading and returns the indices of those
// that are not set aside.
func (m *model) listValues(f *forward) []int {
	var kept []int
	for i, seen := range f.reading.Saw {
		if !seen.SetAside {
			kept = append(kept, len(m.values))
		}
		m.values = append(m.values, shown{reading: f, index: i, seen: seen, observation: -1})
	}
	return kept
}

// addMean adds the values of a reading as one observation: an instrument that
// repeats better than it resolves shows the same figure again, and reading it
// again adds nothing.
func (m *model) addMean(f *forward, kept []int) {
	mean := 0.0
	for _, v := range kept {
		mean += m.values[v].seen.X.Inside() / float64(len(kept))
	}
	index := m.observe(observation{
		equation: &misclosure{forward: f, saw: mean},
		sigma:    f.sigma.ofMean(len(kept)),
		source:   Source{Kind: FromReading, ID: f.reading.ID, Index: m.values[kept[0]].index},
		values:   kept,
	})
	for _, v := range kept {
		m.values[v].observation = index
	}
}

// addGoNoGo adds a gauge that enters and the next that does not: the size lies
// between them, a rectangle of half width (b - a)/2.
func (m *model) addGoNoGo(f *forward) {
	goes, stops := m.bound(f.reading.Goes), m.bound(f.reading.Stops)
	width := stops.nominal - goes.nominal
	feel := 0.0
	if f.reading.Feel.Given() {
		feel = f.reading.Feel.Inside()
	}
	m.values = append(m.values, shown{reading: f, seen: trade.Seen{}})
	m.values[len(m.values)-1].observation = m.observe(observation{
		equation: &between{forward: f, goes: goes, stops: stops},
		sigma:    math.Hypot(width/math.Sqrt(12), feel),
		source:   Source{Kind: FromReading, ID: f.reading.ID},
		values:   []int{len(m.values) - 1},
	})
}

// addRelation adds a relation as a constraint or, where it is inexact, as an
// observation.
func (m *model) addRelation(index int) {
	r := m.newRelation(&m.job.Relations[index])
	m.relations = append(m.relations, r)
	if r.source.Exact() {
		m.constraints = append(m.constraints, r)
		m.tied = append(m.tied, index)
		return
	}
	m.observe(observation{
		equation: r,
		sigma:    spread(r.source.Within, r.source.U),
		source:   Source{Kind: FromRelation, Index: index},
	})
}
