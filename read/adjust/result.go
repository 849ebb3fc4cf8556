package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The statistical figures of the whole program.
const (
	Coverage95   = 1.959963984540054 // k of a 95 % interval
	testLevel    = 0.001             // α of the test of one value
	testPower    = 0.8               // power at which a blunder counts as catchable
	testLimit    = 3.2905267314919255
	scatterLevel = 0.01 // chi-square level at which the readings scatter more than the kit says
)

// Result is what a job's readings say. Lengths are in mm, angles in radians.
type Result struct {
	Job          *trade.Job
	Chi2         float64
	Dof          int
	P            float64 // chance of a chi-square this large or larger
	Sizes        []Size
	Instruments  []Zero
	Pieces       []Piece
	Readings     []Value
	Relations    []Tie
	Places       []Place
	Either       [][]Source // observations that cannot be told apart
	Undetermined []Undetermined
	Warnings     []Warning

	found *findings
}

// Test is how one observation stands against all the others.
type Test struct {
	Residual          float64 // observed less predicted
	Normalised        float64 // residual over its own standard deviation, 0 where nothing checks it
	Redundancy        float64 // 0 nothing checks it, 1 all the others do
	SmallestCatchable float64 // smallest blunder the test finds with power 0.8, +Inf where nothing checks it
	Suspect           bool
}

// Size is one size with its standard uncertainty.
type Size struct {
	ID         string
	Dimension  unit.Dimension
	Value      float64
	U          float64 // standard uncertainty
	Determined bool
	Readings   int // readings that hold it
	Check      Check
	Known      *Test
	Extent     *Extent // of a size with form read in two places or more
}

// Check says what would show a wrong reading of a size.
type Check uint8

// The checks.
const (
	NothingChecks Check = iota // a wrong value would go unseen
	RepeatsCheck               // a slip in one value would be seen, a wrong set-up not
	OthersCheck                // other readings, relations or known sizes
)

// Low returns the lower end of the 95 % interval.
func (s Size) Low() float64 { return s.Value - Coverage95*s.U }

// High returns the upper end of the 95 % interval.
func (s Size) High() float64 { return s.Value + Coverage95*s.U }

// Extent is the tightest and slackest place found of a size that is out of form.
type Extent struct {
	Least, Most     float64
	ULeast, UMost   float64
	LeastBy, MostBy string // the readings that found them
}

// Zero is what an instrument's zero turned out to be.
type Zero struct {
	ID        string
	Dimension unit.Dimension
	Value     float64
	U         float64
	Test
}

// Piece is what a gauge piece's size turned out to be.
type Piece struct {
	ID    string
	Value float64
	U     float64
	Exact bool
	Test
}

// Value is one value of a reading. The values of a reading that count as one
// observation share its test.
type Value struct {
	ID         string
	Index      int
	Dimension  unit.Dimension
	Pair       bool
	Saw        [2]float64 // the second of a pair only
	Predicted  [2]float64
	Unknown    bool // the sizes it needs are not determined: nothing is predicted
	SetAside   bool
	Impossible bool // left out: no sizes that the other readings allow could give it

	// Others is what the readings that are not suspect give, for a suspect value
	// that can be told from the others, NaN for any other and for a pair.
	Others float64
	Test
}

// Tie is how an inexact relation stands.
type Tie struct {
	Index int
	Test
}

// Place is where a hole, a circle's centre or a line was found.
type Place struct {
	ID         string
	Line       bool
	At, U      [2]float64 // x and y, or a line's angle and offset
	Determined bool
}

// SourceKind says what sort of observation a Source names.
type SourceKind uint8

// The sources of information.
const (
	FromReading SourceKind = iota
	FromInstrument
	FromPiece
	FromKnown
	FromRelation
	fromForm
	fromFeel
)

// Source names an observation: a value of a reading, or a prior.
type Source struct {
	Kind  SourceKind
	ID    string // of the reading, kit or size
	Index int    // of the value or the relation
}

// Undetermined is a group of sizes that the readings leave open.
type Undetermined struct {
	Sizes []string
	Text  string
}

// Warning is something that makes a result doubtful.
type Warning struct {
	Reading string // empty where it concerns no one reading
	Text    unit.Text
}

// Scatters reports whether the readings scatter more than the kit says.
func (r *Result) Scatters() bool { return r.Dof > 0 && r.P < scatterLevel }

// Size returns the result for the size with this id, nil if there is none.
func (r *Result) Size(id string) *Size {
	if i, ok := r.found.sizeAt[id]; ok {
		return &r.Sizes[i]
	}
	return nil
}

// Value returns a value of a reading, nil if there is none with this index.
func (r *Result) Value(reading string, index int) *Value {
	from, ok := r.found.valuesFrom[reading]
	if at := from + index; ok && index >= 0 && at < len(r.Readings) && r.Readings[at].ID == reading {
		return &r.Readings[at]
	}
	return nil
}

// Share is the part of a size's variance that comes from one source.
type Share struct {
	Source Source
	Part   float64 // 0 to 1
}

// Shares returns where the variance of a size comes from, largest first: from
// each instrument's zero, each gauge piece, each known size or relation, and
// each reading (its own scatter, its feel and the form of the surface it
// touched). It returns nil where the size is exact or not determined. The
// parts add up to 1, since with independent observations k of standard
// deviation σ_k the variance is Σ (∂x/∂l_k)² σ_k².
func (r *Result) Shares(id string) []Share {
	size := r.Size(id)
	column, ok := r.found.sizes[id]
	if !ok || !size.Determined || size.U == 0 {
		return nil
	}
	parts := map[Source]float64{}
	variance := size.U * size.U
	for k, influence := range r.found.Influence(column) {
		source := r.found.observations[r.found.index[k]].source
		if source.Kind == fromForm || source.Kind == fromFeel {
			source.Kind = FromReading
		}
		if source.Kind != FromRelation {
			source.Index = 0
		}
		parts[source] += influence * influence / variance
	}
	return sorted(parts)
}

// Covariance returns the covariance of two sizes, 0 where one is exact, NaN
// where one is not determined.
func (r *Result) Covariance(a, b string) float64 {
	if !r.Size(a).Determined || !r.Size(b).Determined {
		return math.NaN()
	}
	i, okA := r.found.sizes[a]
	j, okB := r.found.sizes[b]
	if !okA || !okB {
		return 0
	}
	return r.found.Cofactor(i, j)
}
