package part

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Build makes the geometry of a job's part. What its sizes are to be comes from
// fit's result, which may be nil where the part has none that needs it; holes of
// a plan stand where the adjustment found them. The error is an trade.Faults
// that says, where it was written, what clashes with what.
func Build(job *trade.Job, made *fit.Result, found *adjust.Result) (*Model, error) {
	if job.Part == nil {
		return nil, trade.Faults{{Text: "this job makes no part: write one under part:, with its kind, sizes and shape"}}
	}
	b := &builder{job: job, part: job.Part, made: made, found: found, coordinates: map[coordinate]bool{}}
	b.model = &Model{
		Name: job.Part.Name, Kind: job.Part.Kind, Material: job.Part.Material,
		Quantity: max(1, job.Part.Quantity), Revision: job.Part.Revision, Density: density(job.Part.Material),
	}
	b.allMeasures()
	b.shape()
	if err := b.faults.Err(); err != nil {
		return nil, err
	}
	return b.model, nil
}

// builder gathers the model of one part and all that is wrong with it.
type builder struct {
	job    *trade.Job
	part   *trade.Part
	made   *fit.Result
	found  *adjust.Result
	model  *Model
	faults trade.Faults

	outside, inside []piece             // of a turned part
	shoulders       []float64           // where steps of a turned part meet, and its ends
	overall         given               // length over all, which the last step fills; mostly not stated
	coordinates     map[coordinate]bool // that have their dimensions
}

// density returns the density of a material in kg/m³, 0 where the tables do not
// know it.
func density(name string) float64 {
	m, err := facts.FindMaterial(name)
	if err != nil || len(m.Strengths()) == 0 || math.IsNaN(m.Strengths()[0].Density) {
		return 0
	}
	return m.Strengths()[0].Density
}

// shape builds the form that is stated, or the plain one that the sizes' own
// names tell of.
func (b *builder) shape() {
	s := b.part.Shape
	kind := stated(&s)
	if kind == nil {
		var guessed bool
		if s, guessed = b.guess(); !guessed {
			return
		}
		kind = stated(&s)
	}
	kind.build(b, &s)
}

// called is what the part is called in a sentence.
func (b *builder) called() string { return b.part.Kind.Word().Called }

// refuse notes a fault at the first of these places that is known.
func (b *builder) refuse(at []trade.Pos, format string, args ...any) {
	at = append(at, b.part.Shape.Pos, b.part.Pos)
	for _, pos := range at {
		if pos.Line > 0 {
			b.faults.Add(pos, format, args...)
			return
		}
	}
	b.faults.Add(trade.Pos{}, format, args...)
}

// places is where faults about these sizes belong.
func places(list ...given) []trade.Pos {
	var at []trade.Pos
	for _, g := range list {
		at = append(at, g.pos)
	}
	return at
}

// clash refuses two sizes that cannot both be.
func (b *builder) clash(one, other given, why string) {
	b.refuse(places(one, other), "%v and %v cannot both be: %s", one, other, why)
}

// add lists a dimension.
func (b *builder) add(d Dimension) { b.model.Dimensions = append(b.model.Dimensions, d) }

// length shows a length in the units of the job.
func (b *builder) length(mm float64) string { return unit.ShowLength(mm, b.job.Units) }

// spot shows a place in the plan.
func (b *builder) spot(p geom.Point) string {
	return "(" + b.length(p.X) + ", " + b.length(p.Y) + ")"
}
