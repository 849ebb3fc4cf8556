package inspect

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// scaled returns what an instrument without error would show for a reading of
// sizes with these values, and its derivative by a factor on all lengths of the
// part: what the reading grows by when the part does. The factor is 1.
func scaled(job *trade.Job, r *trade.Reading, value func(id string) float64) (shows, growth float64) {
	if r.By == trade.FormulaMethod {
		return scaledFormula(job, r.That.Expr(), value)
	}
	m, _ := gauge.Find(r.By)
	args := make(gauge.Args, len(m.Roles))
	for i, role := range m.Roles {
		args[i] = grad.Const(role.Default)
		for _, arg := range r.Of {
			if arg.Role == role.Name || arg.Role == role.Also && role.Also != "" {
				args[i] = argument(job, role, arg, value)
			}
		}
	}
	n := m.Model(args)
	return n.X, n.D[0]
}

// argument returns what stands in a role.
func argument(job *trade.Job, role gauge.Role, arg trade.Arg, value func(id string) float64) grad.Number {
	if arg.ID == "" {
		return grad.Const(arg.Value.Inside())
	}
	n, factor := grad.Const(value(arg.ID)), 1.0
	if size := job.Size(arg.ID); size != nil {
		factor = role.Kind.Factor(size.Kind)
		if grows(size) {
			n = grad.Var(1, 0).Times(n.X)
		}
	}
	return n.Times(factor)
}

// grows reports whether a size is a length of the part.
func grows(size *trade.Size) bool {
	return size.Kind.Dimension() == unit.Length && len(size.ID) > len(ofThePart) && size.ID[:len(ofThePart)] == ofThePart
}

func scaledFormula(job *trade.Job, e *expr.Expr, value func(id string) float64) (shows, growth float64) {
	names := e.Names()
	values, gradient := make([]float64, len(names)), make([]float64, len(names))
	for i, name := range names {
		values[i] = value(name)
	}
	shows = e.Eval(values, gradient)
	for i, name := range names {
		if size := job.Size(name); size != nil && grows(size) {
			growth += gradient[i] * values[i]
		}
	}
	return shows, growth
}

// finite reports whether x is a number.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
