package strength

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// bearing is the source of what is crushed.
const crushing = "keys and pins, as in any textbook of machine design: crushing begins at the yield stress"

var (
	pinDiameter = Role{"diameter", "d", "mm"}
	bearsOn     = Role{"length that bears", "l", "mm"}
	planes      = Role{"shear planes", "n", "1"}
	softerYield = Role{"yield, or the tensile strength of what has none", "R", "MPa"}
)

var shearedFailures = []*Failure{
	{
		Piece: Pin, Mode: Shears,
		When:    "The pin is cut through.",
		Formula: "F = R/√3·n·π/4·d²",
		Source:  shearing,
		By:      []Property{Tensile},
		Roles:   []Role{strength, planes, pinDiameter},
		Take: func(l *Loaded) (least, most []float64) {
			return alike(planesOf(l.Sheared), l.Sheared.Diameter.Inside())
		},
		Model:     func(a Args) grad.Number { return a[0].Times(shearRatio * math.Pi / 4).Mul(a[1]).Mul(a[2].Sq()) },
		MostRatio: shearRatioMost / shearRatio,
		How:       shearedHow,
		Example:   []float64{550, 2, 6},
	},
	{
		Piece: Pin, Mode: Crushes,
		When:    "The pin, or the side of its hole, is crushed.",
		Formula: "F = R·d·l",
		Source:  crushing,
		By:      []Property{Yield, Tensile},
		Softer:  true,
		AtOnce:  true,
		Roles:   []Role{softerYield, pinDiameter, bearsOn},
		Take: func(l *Loaded) (least, most []float64) {
			return whereItBears(l.Sheared, l.Sheared.Diameter.Inside(), inside(l.Sheared.Length))
		},
		Model:   func(a Args) grad.Number { return a[0].Mul(a[1]).Mul(a[2]) },
		How:     crushedHow,
		Example: []float64{245, 6, 15},
	},
	{
		Piece: Key, Mode: Shears,
		When:    "The key is cut through along the shaft.",
		Formula: "F = R/√3·n·w·l",
		Source:  shearing,
		By:      []Property{Tensile},
		Roles:   []Role{strength, planes, {"width", "w", "mm"}, {"length", "l", "mm"}},
		Take: func(l *Loaded) (least, most []float64) {
			return alike(planesOf(l.Sheared), l.Sheared.Width.Inside(), inside(l.Sheared.Length))
		},
		Model:     func(a Args) grad.Number { return a[0].Times(shearRatio).Mul(a[1]).Mul(a[2]).Mul(a[3]) },
		MostRatio: shearRatioMost / shearRatio,
		How:       shearedHow,
		Example:   []float64{550, 1, 10, 35},
	},
	{
		Piece: Key, Mode: Crushes,
		When:    "Half the height of the key, or the side of its keyway, is crushed.",
		Formula: "F = R·h/2·l",
		Source:  crushing,
		By:      []Property{Yield, Tensile},
		Softer:  true,
		AtOnce:  true,
		Roles:   []Role{softerYield, {"height", "h", "mm"}, bearsOn},
		Take: func(l *Loaded) (least, most []float64) {
			return whereItBears(l.Sheared, l.Sheared.Height.Inside(), inside(l.Sheared.Length))
		},
		Model:   func(a Args) grad.Number { return a[0].Mul(a[1].Half()).Mul(a[2]) },
		How:     crushedHow,
		Example: []float64{225, 8, 35},
	},
}

func planesOf(p *trade.Sheared) float64 { return float64(max(p.Planes, 1)) }

// whereItBears returns values that count only where it is stated how long the piece
// bears.
func whereItBears(p *trade.Sheared, v ...float64) (least, most []float64) {
	if !p.Length.Given() {
		return nil, nil
	}
	return alike(v...)
}

func crushedHow(l *Loaded, v []float64, load float64) unit.Text {
	return unit.Say("%s yields: %.0f MPa on %.1f mm²", l.softer, v[0], load/v[0])
}
