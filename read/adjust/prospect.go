package adjust

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Prospect is what one reading that has not been taken would add to a result,
// to first order about the sizes found. With a the reading's gradient, Q the
// cofactors and q = Qaᵀ, the sizes follow the reading by a gain g, and the
// cofactors become
//
//	Q' = Q - g·qᵀ - q·gᵀ + e·g·gᵀ,  e = σ² + a·q
//
// Where the other readings foretell what it shows, g = q/e. Where they do not,
// g = N·c/(c·c) with c = aN, N being the directions that are still open: the
// reading closes the direction c. A zero, a gauge piece or a departure from
// form that it is the first to meet counts in σ².
type Prospect struct {
	Reading *trade.Reading
	Shows   float64        // what the instrument would show, its zero as found; NaN where the others do not foretell it
	Remarks []gauge.Remark // what its method says at the sizes found
	Broken  bool           // the set-up cannot be there, or at the ends of a size's 95 % interval

	base    *outlook
	forward *forward  // nil: of no reading
	own     lsq.Image // of the reading's model, from which q follows
	e       float64
	along   []float64 // c, nil where the reading closes no direction
	square  float64   // c·c
}

// outlook is a result seen together with readings that have not been taken.
type outlook struct {
	*findings
	ahead   *model              // of the job with all the readings planned
	x       []float64           // its unknowns
	home    []int               // the column of each of them in the result, -1 for one that is new
	known   []float64           // standard uncertainty that each is known with beforehand
	behind  map[string]standing // by reading, what stands behind it as it is
	settled map[int][]stake     // by unknown, as far as asked for: the readings that settle it
}

// Prospects returns what each reading without values would add to r, one at a
// time. The job differs from that of r by these readings and by gauge pieces
// and instruments that they use. A reading that could show nothing, and one
// of a pair, is left out.
func (r *Result) Prospects(job *trade.Job) []*Prospect {
	o := r.outlook(compile(job))
	var list []*Prospect
	for _, f := range o.ahead.forwards {
		if len(f.reading.Saw) > 0 || f.reading.GoNoGo() || f.pair() {
			continue
		}
		if p := o.prospect(f); p != nil {
			list = append(list, p)
		}
	}
	return list
}

// Present returns the prospect of no further reading: what r itself says.
func (r *Result) Present() *Prospect {
	return &Prospect{base: r.outlook(r.found.model), e: 1}
}

func (r *Result) outlook(ahead *model) *outlook {
	o := &outlook{
		findings: r.found, ahead: ahead, x: make([]float64, len(ahead.unknowns)), home: make([]int, len(ahead.unknowns)),
		known: ahead.knownBeforehand(), behind: map[string]standing{}, settled: map[int][]stake{},
	}
	o.settle()
	for reading := range o.members {
		o.behind[reading] = o.standing(reading)
	}
	return o
}

// settle gives the unknowns ahead the values found, and those that are new what
// is known beforehand. A departure from form or of seating is always new: no
// reading shares it with another.
func (o *outlook) settle() {
	columns := o.columnsByUnknown()
	for i, u := range o.ahead.unknowns {
		o.home[i] = -1
		j, ok := columns[u]
		switch {
		case ok && u.kind != formUnknown && u.kind != feelUnknown:
			o.home[i], o.x[i] = j, o.X[j]
		case u.kind == pieceUnknown:
			o.x[i] = o.ahead.job.Piece(u.id).Size.Inside()
		}
	}
}

// knownBeforehand returns the standard uncertainty that each unknown is known
// with before any reading, 0 for one that is not.
func (m *model) knownBeforehand() []float64 {
	list := make([]float64, len(m.unknowns))
	for _, o := range m.observations {
		if p, ok := o.equation.(prior); ok {
			list[p.column] = o.sigma
		}
	}
	return list
}

// columnsOf returns the unknowns that a size is, or the place of a hole or
// circle: none where it is exact.
func (f *findings) columnsOf(id string) []int {
	if column, ok := f.sizes[id]; ok {
		return []int{column}
	}
	var list []int
	if columns, ok := f.model.places[id]; ok {
		for _, column := range columns {
			if column >= 0 {
				list = append(list, column)
			}
		}
	}
	return list
}

// prospect returns what a reading would add, nil where it can show nothing.
func (o *outlook) prospect(f *forward) *Prospect {
	var row, a lsq.Row
	shows := f.predict(o.x, &row)
	p := &Prospect{Reading: f.reading, base: o, forward: f, Shows: math.NaN()}
	noise := f.sigma.ofOne() * f.sigma.ofOne()
	for i, column := range row.Columns {
		if home := o.home[column]; home >= 0 {
			a.Add(home, row.Values[i])
			continue
		}
		noise += row.Values[i] * row.Values[i] * o.known[column] * o.known[column]
	}
	if !finite(shows) || !finite(noise) {
		return nil
	}
	p.follow(&a, noise)
	if p.along == nil {
		p.Shows = shows
	}
	if p.Shows <= 0 && !f.method.Signed {
		return nil
	}
	p.judge()
	return p
}

// follow works out how the unknowns follow a reading with this gradient and
// variance about what it should show.
func (p *Prospect) follow(a *lsq.Row, noise float64) {
	p.own = p.base.Image(a)
	p.e = noise + p.own.Variance()
	if !p.base.Estimable(a) {
		p.close(a)
	}
}

// q returns Qaᵀ of unknown j.
func (p *Prospect) q(j int) float64 { return p.base.CovarianceWith(j, p.own) }

// gain returns g of unknown j.
func (p *Prospect) gain(j int) float64 {
	if p.along == nil {
		return p.q(j) / p.e
	}
	sum := 0.0
	for k, c := range p.along {
		sum += p.base.Null.At(j, k) * c / p.square
	}
	return sum
}

// seen returns a_i·q of observation i of the result, a_i over its own σ.
func (p *Prospect) seen(i int) float64 { return p.base.ShownIn(i, p.own) }

// close makes the reading one that closes an open direction.
func (p *Prospect) close(a *lsq.Row) {
	p.along = make([]float64, p.base.Defect)
	for k := range p.along {
		for i, column := range a.Columns {
			p.along[k] += a.Values[i] * p.base.Null.At(column, k)
		}
		p.square += p.along[k] * p.along[k]
	}
}

// closed reports whether unknown j no longer moves along an open direction
// once the reading is taken.
func (p *Prospect) closed(j int) bool {
	if p.base.Determined(j) || p.along == nil {
		return p.base.Determined(j)
	}
	var along, square, size float64
	for k, c := range p.along {
		x := p.base.Null.At(j, k)
		along, square, size = along+x*c, square+c*c, size+x*x
	}
	return size-along*along/square <= negligible*negligible*size
}

// Narrows reports whether the reading closes a direction in which a size or
// place is open, though others may remain.
func (p *Prospect) Narrows(id string) bool {
	return p.along != nil && slices.ContainsFunc(p.base.columnsOf(id), func(j int) bool {
		return p.gain(j) != 0 && !p.base.Determined(j)
	})
}

// Uncertainty returns the standard uncertainty that a size would have with the
// reading; of a hole or a circle's centre, the larger of x and y.
func (p *Prospect) Uncertainty(id string) (u float64, determined bool) {
	variance := 0.0
	for _, j := range p.base.columnsOf(id) {
		if !p.closed(j) {
			return math.NaN(), false
		}
		variance = max(variance, p.variance(j))
	}
	return math.Sqrt(variance), true
}

func (p *Prospect) variance(j int) float64 {
	g := p.gain(j)
	return max(0, p.base.Cofactor(j, j)-2*g*p.q(j)+g*g*p.e)
}

// ShowsAt returns what the instrument would show if the sizes were those of
// another result of the same job.
func (p *Prospect) ShowsAt(other *Result) float64 {
	x := slices.Clone(p.base.x)
	for i, home := range p.base.home {
		if home >= 0 {
			x[i] = other.found.X[home]
		}
	}
	return p.forward.predict(x, nil)
}

// Spread returns the standard deviation of what the instrument would show about
// what the sizes found imply, their own uncertainty counted.
func (p *Prospect) Spread() float64 { return math.Sqrt(p.e) }

// Reads returns what the reading measures.
func (p *Prospect) Reads() unit.Dimension { return p.forward.dimension }
