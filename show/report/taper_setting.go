package report

import (
	"fmt"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TaperSetting writes how a lathe is set for a taper, and how that is checked.
func TaperSetting(w io.Writer, s *lathe.TaperSetting, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() { p.taperSetting(s) })
}

func (p *printer) taperSetting(s *lathe.TaperSetting) {
	p.line("%s\n", p.paint(bold, fmt.Sprintf("Taper of %s to the axis", unit.ShowAngle(s.Wanted.HalfAngle))))
	p.table(taperRows(s))
	p.line("")
	p.paragraph("", fmt.Sprintf("Check: with a dial square to the axis and on centre height, %s of the carriage must move it by %s, %s of the top slide along itself by %s. 0.01 mm of the dial is %s of the angle.",
		p.told(s.Check, 1), p.told(s.ByCarriage, 3), p.told(s.Check, 1), p.told(s.ByTopSlide, 3), unit.ShowAngle(s.Sensitivity)))
	for _, warning := range s.Warnings {
		p.paragraph("", p.paint(yellow, warning))
	}
}

// taperRows lists the ways of turning the taper.
func taperRows(s *lathe.TaperSetting) [][]string {
	inchesPerFoot := 12 * s.PerLength
	rows := [][]string{
		{"by", "set", ""},
		{"the top slide", unit.ShowAngle(s.Swivel), toTenthOfMinute(s.Swivel)},
		{"a taper attachment", unit.ShowAngle(s.Swivel) + ", or " + unit.ShowAngle(2*s.Swivel) + " where it is graduated so", fmt.Sprintf(
			"%s in/ft, %s mm in 100 mm, 1:%s on the diameter", decimal(inchesPerFoot, 4), decimal(100*s.PerLength, 3), decimal(1/s.PerLength, 3))},
	}
	if !math.IsNaN(s.SetOver) {
		rows = append(rows, []string{"the tailstock", decimal(s.SetOver, 3) + " mm over", unit.ThouText(s.SetOver)})
	}
	return rows
}

// toTenthOfMinute writes an angle as a graduated slide has it, 2° 51.7'.
func toTenthOfMinute(rad float64) string {
	tenths := math.Round(rad * degreesPerRadian * 600)
	whole := math.Floor(tenths / 600)
	return fmt.Sprintf("%.0f° %s'", whole, decimal((tenths-600*whole)/10, 1))
}

// Stock writes what to saw for a part.
func Stock(w io.Writer, s *plan.Stock, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() { p.stock(s) })
}

func (p *printer) stock(s *plan.Stock) {
	p.heading("Stock")
	section := "round bar of " + p.bothLengths(s.Width) + " or more"
	if s.Section == plan.FlatBar {
		section = "flat bar of " + p.inUnit(s.Width, 1) + " × " + p.told(s.Thickness, 1) + " or more"
	}
	p.line("  %s, sawn to %s", section, p.bothLengths(s.Length))
	p.paragraph("", fmt.Sprintf("%s with %s: %s of bar with the kerfs, %s of that for the spares, which are worth sawing while the saw is set up.",
		plural(s.Plan.Pieces, "piece"), plural(s.Plan.Spares, "spare"), p.told(s.Bar, 0), p.told(s.Spare, 0)))
	p.paragraph("", fmt.Sprintf("Allowed: %s to face each end, %s on the diameter or sides, %s of kerf (common practice, no source).",
		p.told(s.Plan.Facing, 1), p.told(s.Plan.Skin, 1), p.told(s.Plan.Kerf, 1)))
	if s.Mass > 0 {
		p.line("  %s kg each as sawn, %s kg finished", decimal(s.Mass, 3), decimal(s.Finished, 3))
	}
	for _, note := range s.Notes {
		p.paragraph("", note)
	}
}
