package simulate

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// endGauge is JCGM 100:2008, H.1, in nm and °C: two products of quantities that
// are zero on the whole, which the first order does not see.
const endGauge = jobHead + `
kit:
  comparator: {kind: other, resolution: 1 mm, zero: 0.001 mm, repeat: 9.7 mm}
sizes:
  ls:     {kind: number, known: 50000623, u: 25}
  d:      {kind: number, guess: 215}
  l:      {kind: number, guess: 50000838}
  alpha:  {kind: number, known: 11.5e-6, within: 2e-6}
  theta:  {kind: number, known: -0.1, u: 0.41}
  dalpha: {kind: number, known: 0, within: 1e-6}
  dtheta: {kind: number, known: 0, within: 0.05}
readings:
  - {id: a, by: formula, that: d, with: comparator, saw: 215}
relations:
  - {that: l, is: ls + d - ls*(dalpha*theta + alpha*dtheta)}
`

// squared is a rise that goes with the square of a throw near zero.
const squared = jobHead + `
kit:
  steel: {kind: rule, resolution: 0.5 mm}
sizes:
  throw: {kind: offset, guess: 0.2 mm}
  rise:  {kind: offset}
readings:
  - {id: a, by: formula, that: throw, with: steel, saw: [0.0, 0.5]}
relations:
  - {that: rise*1 mm, is: throw^2}
`

// slightly has the same square well away from zero.
var slightly = strings.NewReplacer("[0.0, 0.5]", "[9.5, 10.0]", "0.2 mm", "9 mm").Replace(squared)

// edgeOfBall is a mouth so narrow for its ball that the ball only just sits.
const edgeOfBall = jobHead + `
kit:
  steel: {kind: rule, resolution: 0.5 mm}
sizes:
  mouth: {kind: diameter, surface: inside}
readings:
  - {id: a, by: ball-on-mouth, of: {bore: mouth, ball: 20 mm}, with: steel, saw: [11.0, 11.0]}
`

func TestSecondOrderSpeaks(t *testing.T) {
	for _, c := range []struct {
		name, job, about, want string
	}{
		{"H.1", endGauge, "l", "95 % interval is about 50000772 to 50000904 and not 50000776 to 50000900"},
		{"a square near zero", squared, "rise", "above the value shown"},
		{"a square at zero", strings.Replace(squared, "[0.0, 0.5]", "0.0", 1), "rise", "above the value shown"},
		{"a ball at the edge", edgeOfBall, "mouth", "95 % interval is about 19.810 mm to 19.961 mm and not 19.825 mm to 19.975 mm"},
		{"balls nearly side by side", nearlySideBySide, "bore", "95 % interval"},
		{"a square far from zero", slightly, "", ""},
	} {
		list := SecondOrder(adjustedText(t, c.name, []byte(c.job)))
		switch {
		case c.about == "" && len(list) == 0:
		case c.about == "" || len(list) != 1:
			t.Errorf("%s: warned of %q", c.name, list)
		case !strings.HasPrefix(list[0].Text.Shown(unit.View{}), c.about+": ") || !strings.Contains(list[0].Text.Shown(unit.View{}), c.want):
			t.Errorf("%s: %q does not say of %s: %s", c.name, list[0].Text.Shown(unit.View{}), c.about, c.want)
		}
	}
}

// drawn is what many draws give of one size, straight and as it is.
type drawn struct {
	id               string
	u                float64
	straight, really []float64
}

// drawBoth draws a job and keeps beside every solution what it would be if all
// were straight: their differences are those of the bend alone.
func drawBoth(t *testing.T, r *adjust.Result, trials int, random *rand.Rand) []drawn {
	t.Helper()
	w, observations := newChord(r).walk(), r.Observations()
	var list []drawn
	var columns []int
	for _, s := range r.Sizes {
		if column, ok := r.Column(s.ID); ok && s.Determined && s.U > 0 {
			list, columns = append(list, drawn{id: s.ID, u: s.U}), append(columns, column)
		}
	}
	errors := make([]float64, len(observations))
	for range trials {
		for k := range observations {
			errors[k] = errorOf(&observations[k], random)
		}
		w.begin(errors)
		straight := slices.Clone(w.x)
		x, ok := w.solve(errors)
		if !ok {
			continue
		}
		for i, column := range columns {
			list[i].straight = append(list[i].straight, straight[column])
			list[i].really = append(list[i].really, x[column])
		}
	}
	return list
}

// off returns by how much bending moves the mean and the ends of the interval,
// in standard uncertainties.
func (d *drawn) off() float64 {
	straight, really := newOutput(d.straight), newOutput(d.really)
	lowA, highA := straight.Symmetric(level)
	lowB, highB := really.Symmetric(level)
	return max(math.Abs(really.Mean-straight.Mean), math.Abs(lowB-lowA), math.Abs(highB-highA)) / d.u
}

// TestSecondOrderIsRight holds what is said, and what is not, against drawing:
// over all jobs and examples, silence must mean that mean and ends are off by
// no more than a tenth of u, and a warning that they are. Both are drawn from
// the same errors, so that what the drawing leaves open is far below that.
func TestSecondOrderIsRight(t *testing.T) {
	trials, blur := 10_000, 0.03
	if testing.Short() {
		trials, blur = 300, 0.1
	}
	if os.Getenv("ODDLEG_LONG") != "" {
		trials, blur = 200_000, 0.01
	}
	random := rand.New(rand.NewPCG(seed, 2))
	sizes, warned, loudest := 0, 0, 0.0
	for _, file := range files(t) {
		r := adjusted(t, file)
		list := SecondOrder(r)
		if len(list) > 0 && filepath.Base(file) != "idler-gears.yaml" {
			t.Errorf("%s: warned of %q", file, list)
		}
		for _, d := range drawBoth(t, r, trials, random) {
			sizes++
			off := d.off()
			speaks := slices.ContainsFunc(list, func(w adjust.Warning) bool { return strings.HasPrefix(w.Text.Shown(unit.View{}), d.id+":") })
			switch {
			case speaks && off < bentShare-blur:
				t.Errorf("%s: warned of %s, which is %.3f standard uncertainties off", file, d.id, off)
			case !speaks && off > bentShare+blur:
				t.Errorf("%s: not warned of %s, which is %.3f standard uncertainties off", file, d.id, off)
			case speaks:
				warned++
			default:
				loudest = max(loudest, off)
			}
		}
	}
	t.Logf("%d sizes, warned of %d; those in silence are at most %.3f standard uncertainties off", sizes, warned, loudest)
}

// BenchmarkSecondOrder is what every run of the program pays.
func BenchmarkSecondOrder(b *testing.B) {
	r := adjusted(b, "../../examples/index-plunger.yaml")
	for b.Loop() {
		SecondOrder(r)
	}
}
