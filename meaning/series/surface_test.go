package series

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// byQuadrature works out the density and the mean loss of a surface by summing
// over the loss, Simpson's rule in 4000 steps: an independent way.
func byQuadrature(s surface, basic, scale float64) (density, loss float64) {
	const steps = 4000
	sigma := math.Hypot(s.seen.U, s.make)
	top := min(12*scale, 12*sigma) + math.Abs(s.seen.Value-basic)
	for i := range steps + 1 {
		w := top * float64(i) / steps
		weight := 2.0
		switch {
		case i == 0 || i == steps:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		f := weight * math.Sqrt(2/math.Pi) / scale * math.Exp(-w*w/(2*scale*scale)-math.Pow((s.seen.Value-basic+s.sense*w)/sigma, 2)/2) / (sigma * math.Sqrt(2*math.Pi))
		density, loss = density+f, loss+f*w
	}
	return density * top / steps / 3, loss / density
}

func TestSurfaceAgreesWithQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := surface{
			seen:  Measured{10 + rapid.Float64Range(-0.4, 0.2).Draw(t, "off"), rapid.Float64Range(0.005, 0.05).Draw(t, "u")},
			sense: rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sense"),
			make:  rapid.Float64Range(0, 0.03).Draw(t, "make"),
		}
		if s.sense < 0 {
			s.seen.Value = 20 - s.seen.Value
		}
		scale := rapid.Float64Range(0.01, 0.25).Draw(t, "scale")
		density, loss := byQuadrature(s, 10, scale)
		if density < 1e-12 {
			t.Skip("the sum itself loses its digits")
		}
		if got := math.Exp(s.halfNormal(10, scale)); math.Abs(got-density) > 1e-6*density {
			t.Errorf("density %.9g, by quadrature %.9g", got, density)
		}
		if got := s.lossOf(10, scale); math.Abs(got-loss) > 1e-6*(loss+scale) {
			t.Errorf("loss %.9g, by quadrature %.9g", got, loss)
		}
	})
}

// TestSurfaceMixes checks the mixture of usual and heavy wear against its parts,
// and that no reading, however far off, breaks it.
func TestSurfaceMixes(t *testing.T) {
	s := surface{seen: Measured{9.7, 0.02}, sense: 1, make: 0.03, scale: 0.1, heavy: 0.25}
	light, lightLoss := byQuadrature(s, 10, s.scale)
	heavy, heavyLoss := byQuadrature(s, 10, s.heavy)
	density := (1-heavyShare)*light + heavyShare*heavy
	if got := math.Exp(s.logLikelihood(10)); math.Abs(got-density) > 1e-6*density {
		t.Errorf("density %.9g, by quadrature %.9g", got, density)
	}
	loss := ((1-heavyShare)*light*lightLoss + heavyShare*heavy*heavyLoss) / density
	if got := s.loss(10); math.Abs(got-loss) > 1e-6 {
		t.Errorf("loss %.9g, by quadrature %.9g", got, loss)
	}
	for _, far := range []float64{-1e6, -30, 0, 9, 11, 30, 1e6} {
		s.seen.Value = far
		if x := s.logLikelihood(10); math.IsNaN(x) || math.IsInf(x, 1) {
			t.Errorf("at %g mm the likelihood is %g", far, x)
		}
		if x := s.loss(10); math.IsNaN(x) || x < 0 {
			t.Errorf("at %g mm the loss is %g", far, x)
		}
	}
}

func TestLossIsNeverNegative(t *testing.T) {
	s := surface{seen: Measured{10.5, 0.02}, sense: 1, make: 0.03, scale: 0.1, heavy: 0.25}
	if loss := s.loss(10); loss < 0 || loss > 0.01 {
		t.Errorf("half a millimetre oversize has lost %g mm", loss)
	}
	if beyond := s.beyond(10); math.Abs(beyond-0.5/math.Hypot(0.02, 0.03)) > 1e-9 {
		t.Errorf("it is %g standard deviations beyond", beyond)
	}
}

func TestMean(t *testing.T) {
	mean, apart := Mean(Measured{1, 0.1}, Measured{}, Measured{2, 0.2})
	// Weights 100 and 25: (100 + 50)/125, u = 1/√125 (constructed).
	if math.Abs(mean.Value-1.2) > 1e-12 || math.Abs(mean.U-1/math.Sqrt(125)) > 1e-12 || math.Abs(apart-1/math.Hypot(0.1, 0.2)) > 1e-12 {
		t.Errorf("mean %+v, apart %g", mean, apart)
	}
	if mean, _ := Mean(); mean.Given() {
		t.Errorf("the mean of nothing is %+v", mean)
	}
}

// TestWaysToThePitch has figures worked by hand (constructed).
func TestWaysToThePitch(t *testing.T) {
	for _, c := range []struct {
		name      string
		got       Measured
		want, u   float64
		tolerance float64
	}{
		{"leaf", ByLeaf(1.5), 1.5, 0.009, 1e-12},
		{"over 10", Over(10, Measured{18.14, 0.1}), 1.814, 0.01, 1e-12},
		{"14 in an inch", Counted(14, 25.4), 25.4 / 14, 0.03741, 1e-5},
	} {
		if math.Abs(c.got.Value-c.want) > c.tolerance || math.Abs(c.got.U-c.u) > c.tolerance {
			t.Errorf("%s: %+v, wanted %g with %g", c.name, c.got, c.want, c.u)
		}
	}
}
