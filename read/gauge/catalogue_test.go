package gauge

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// samples is how many valid set-ups of each method the properties are tried on.
const samples = 200

// validAround returns set-ups near the example of a method, every measure
// changed by up to a fifth, that break no rule.
func validAround(t *testing.T, m *Method, random *rand.Rand) [][]float64 {
	t.Helper()
	var list [][]float64
	for range 1000 * samples {
		v := slices.Clone(m.Example)
		for i := range v {
			if k := m.Roles[i].Kind; k != Count && k != Side {
				v[i] *= 0.8 + 0.4*random.Float64()
			}
		}
		if !isBroken(m, v) && !math.IsNaN(model(m.Model).at(v)) {
			list = append(list, v)
		}
		if len(list) == samples {
			return list
		}
	}
	t.Fatalf("%s: only %d valid set-ups found near the example", m.ID, len(list))
	return nil
}

func isBroken(m *Method, v []float64) bool {
	return m.Valid != nil && slices.ContainsFunc(m.Valid(v), func(r Remark) bool { return r.Broken })
}

// eachModel runs a test over every method that has a model, with valid set-ups.
func eachModel(t *testing.T, test func(t *testing.T, m *Method, valid [][]float64)) {
	for i, m := range Methods() {
		if m.Model == nil {
			continue
		}
		t.Run(m.ID, func(t *testing.T) {
			test(t, m, validAround(t, m, rand.New(rand.NewPCG(1, uint64(i)))))
		})
	}
}

// difference is the slope of the model in one role by central differences over
// h, h/2, h/4 and h/8, extrapolated to h = 0 after Richardson, and how far it
// can be trusted: rounding, and the last step of the extrapolation.
func difference(m *Method, v []float64, role int) (slope, doubt float64) {
	h := 1e-3 * math.Max(math.Abs(v[role]), 1e-3)
	at := func(step float64) float64 {
		w := slices.Clone(v)
		w[role] += step * h
		return model(m.Model).at(w)
	}
	row := make([]float64, 0, 4)
	for step := 1.0; step >= 0.125; step /= 2 {
		row = append(row, (at(step)-at(-step))/(2*step*h))
	}
	before := 0.0
	for power := 4.0; len(row) > 1; power *= 4 {
		before = row[len(row)-1]
		for i := range len(row) - 1 {
			row[i] = (power*row[i+1] - row[i]) / (power - 1)
		}
		row = row[:len(row)-1]
	}
	rounding := 1e-14 * math.Abs(at(0)) / (0.125 * h)
	return row[0], rounding + math.Abs(row[0]-before)
}

// TestDerivativesAreExact compares every derivative with differences that know
// nothing of the rules of differentiation. Where a difference is itself no
// better than 1e-7 (a square root near zero), it says nothing.
func TestDerivativesAreExact(t *testing.T) {
	eachModel(t, func(t *testing.T, m *Method, valid [][]float64) {
		for r := range m.Roles {
			if m.Roles[r].Kind == Count || m.Roles[r].Kind == Side {
				continue
			}
			compared := 0
			for _, v := range valid {
				want, doubt := difference(m, v, r)
				if math.IsNaN(v[r]) || !(doubt <= 1e-7*(1+math.Abs(want))) {
					continue
				}
				compared++
				if got := model(m.Model).slope(v, r); math.Abs(got-want) > 1e-7*(1+math.Abs(want)) {
					t.Fatalf("%s at %v: derivative %.12g, difference %.12g", m.Roles[r].Name, v, got, want)
				}
			}
			if compared < samples/2 {
				t.Errorf("%s: only %d of %d differences were fit to compare", m.Roles[r].Name, compared, samples)
			}
		}
	})
}

// TestForwardThenInvert finds the size again from the reading it gives, in
// every role that the reading depends on.
func TestForwardThenInvert(t *testing.T) {
	eachModel(t, func(t *testing.T, m *Method, valid [][]float64) {
		for r, role := range m.Roles {
			if !usedByModel(m, r) || role.Kind == Count || role.Kind == Side {
				if found := m.Invert(m.Example, r, model(m.Model).at(m.Example)); found != nil {
					t.Errorf("%s cannot follow from the reading, found %v", role.Name, found)
				}
				continue
			}
			for _, v := range valid {
				reading := model(m.Model).at(v)
				// the reading's own rounding, carried into the size
				near := 1e-9*math.Abs(v[r]) + 1e-14*math.Abs(reading/model(m.Model).slope(v, r))
				w := slices.Clone(v)
				w[r] = math.NaN()
				found := m.Invert(w, r, reading)
				if !slices.ContainsFunc(found, func(x float64) bool { return math.Abs(x-v[r]) <= near }) {
					t.Fatalf("%s of %v: reading %.9g gives %v", role.Name, v, reading, found)
				}
				w[r] = found[0]
				if isBroken(m, w) {
					t.Fatalf("%s of %v: %g comes first and breaks a rule", role.Name, v, found[0])
				}
			}
		}
	})
}

func TestExamplesAreSound(t *testing.T) {
	for _, m := range Methods() {
		if len(m.Example) != len(m.Roles) {
			t.Errorf("%s: %d values in the example for %d roles", m.ID, len(m.Example), len(m.Roles))
			continue
		}
		if isBroken(m, m.Example) {
			t.Errorf("%s: the example breaks a rule: %v", m.ID, m.Valid(m.Example))
		}
		if m.Model != nil && !(math.Abs(model(m.Model).at(m.Example)) < math.Inf(1)) {
			t.Errorf("%s: the example has no reading", m.ID)
		}
	}
}

func TestGradientsHaveRoom(t *testing.T) {
	for _, m := range Methods() {
		if len(m.Roles) > grad.Width {
			t.Errorf("%s has %d roles, gradients only %d places", m.ID, len(m.Roles), grad.Width)
		}
	}
}

func TestFind(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Methods() {
		if found, ok := Find(m.ID); !ok || found != m || seen[m.ID] {
			t.Errorf("%s is not found, or stands twice", m.ID)
		}
		seen[m.ID] = true
		if m.Family == "" {
			t.Errorf("%s is of no family", m.ID)
		}
	}
	if _, ok := Find("over-three-pins"); ok {
		t.Error("a method that is not there was found")
	}
}

// TestWithNumbersLeavesNoSymbol shows every symbol as ■: none may be left over,
// and each that the model uses must have been there.
func TestWithNumbersLeavesNoSymbol(t *testing.T) {
	for _, m := range Methods() {
		used := map[int]bool{}
		text := m.WithNumbers(func(role int) string { used[role] = true; return "■" })
		words := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		for i, r := range m.Roles {
			if slices.Contains(words, r.Symbol) {
				t.Errorf("%s: %s is left in %q", m.ID, r.Symbol, text)
			}
			if m.Model != nil && used[i] != usedByModel(m, i) {
				t.Errorf("%s: %s stands in the formula: %v, in the model: %v", m.ID, r.Symbol, used[i], !used[i])
			}
		}
	}
}

// usedByModel reports whether the reading changes with a role.
func usedByModel(m *Method, role int) bool { return model(m.Model).slope(m.Example, role) != 0 }

func TestWithNumbers(t *testing.T) {
	for _, c := range []struct {
		id   string
		text []string
		want string
	}{
		{"over-two-pins", []string{"50.000", "6.000", ""}, "m = 50.000 + 2·6.000"},
		{"runout", []string{"-0.050"}, "m = 2·(-0.050)"},
		{"dovetail-over-rollers", []string{"100.000", "60°", "12.000", ""}, "m = 100.000 + 12.000·(1 + cot(60°/2))"},
		{"two-balls-stacked", []string{"40", "30", "2 9/64"}, "m = s + sqrt(s² - (40 - s)²); s = (30 + (2 9/64))/2"},
		{"sine-bar", []string{"30.000°", "100"}, "m = 100·sin 30.000°"},
	} {
		m, _ := Find(c.id)
		if got := m.WithNumbers(func(role int) string { return c.text[role] }); got != c.want {
			t.Errorf("%s: %q, want %q", c.id, got, c.want)
		}
	}
}

// TestInsideWithoutFlatIsTheSizeItself holds to the last digit.
func TestInsideWithoutFlatIsTheSizeItself(t *testing.T) {
	m, _ := Find("inside")
	for _, x := range []float64{0.1, 3.7, 1.0 / 3, 1e9} {
		if got := m.Model(Args{grad.Var(x, 0), grad.Const(0)}); got.X != x || got.D[0] != 1 {
			t.Errorf("inside %g reads %g with slope %g", x, got.X, got.D[0])
		}
	}
}

func BenchmarkModel(b *testing.B) {
	for _, id := range []string{"over-two-pins", "taper-over-rollers", "gear-over-pins"} {
		m, _ := Find(id)
		args := make(Args, len(m.Roles))
		for i, x := range m.Example {
			args[i] = grad.Var(x, i)
		}
		b.Run(id, func(b *testing.B) {
			for b.Loop() {
				m.Model(args)
			}
		})
	}
}

func BenchmarkInvert(b *testing.B) {
	for _, id := range []string{"over-two-pins", "three-wires", "gear-over-pins"} {
		m, _ := Find(id)
		reading := model(m.Model).at(m.Example)
		b.Run(id, func(b *testing.B) {
			for b.Loop() {
				m.Invert(m.Example, 0, reading)
			}
		})
	}
}
