package strength

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var pressFailures = []*Failure{{
	Piece: Fitted, Mode: Slips,
	When:    "The inner one moves endways in the outer, or turns.",
	Formula: "F = μ·p·π·d·L",
	Source:  "friction on the wall where they meet; p by Lamé's equations, as in any textbook of strength",
	Needs:   []Property{Stiffness, Expansion},
	Roles:   []Role{{"friction", "μ", "1"}, {"pressure", "p", "MPa"}, {"diameter", "d", "mm"}, {"length", "L", "mm"}},
	Take: func(l *Loaded) (least, most []float64) {
		p := l.Joint.Press
		at := func(friction, pressure float64) []float64 {
			return []float64{friction, pressure, p.Diameter.Inside(), p.Length.Inside()}
		}
		if l.press.Pressure.Low <= 0 {
			return nil, nil
		}
		return at(l.slides.Low, l.press.Pressure.Low), at(l.slides.High, l.press.Pressure.High)
	},
	Model: func(a Args) grad.Number { return a[0].Times(math.Pi).Mul(a[1]).Mul(a[2]).Mul(a[3]) },
	How: func(_ *Loaded, v []float64, _ float64) unit.Text {
		return unit.Say("friction %.2f at %.1f MPa on %.0f mm²", v[0], v[1], math.Pi*v[2]*v[3])
	},
	Example: []float64{0.1, 22.5, 36, 34},
}}
