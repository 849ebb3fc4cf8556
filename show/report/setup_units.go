package report

import "codeberg.org/oddleg/oddleg/num/unit"

// inchFirst reports whether a job tells lengths in inches first. Verbs without a job
// tell millimetres first.
func (p *printer) inchFirst() bool { return p.units == unit.Inch }

// bothLengths writes a length in mm and in inches, that of the job first.
func (p *printer) bothLengths(mm float64) string {
	if p.inchFirst() {
		return unit.ThouText(mm) + "  " + decimal(mm, 3) + " mm"
	}
	return bothLengths(mm)
}

// lengthUnit names the unit of the job.
func (p *printer) lengthUnit() string {
	if p.inchFirst() {
		return unit.Inch.String()
	}
	return unit.Millimetre.String()
}

// inUnit writes a length in the unit of the job without its name: with so many
// decimals of a millimetre, or one more of an inch.
func (p *printer) inUnit(mm float64, decimals int) string {
	if p.inchFirst() {
		return decimal(mm/unit.MillimetresPerInch, decimals+1)
	}
	return decimal(mm, decimals)
}

// told writes a length in the unit of the job, so.
func (p *printer) told(mm float64, decimals int) string {
	return p.inUnit(mm, decimals) + " " + p.lengthUnit()
}

// columns puts the second and third cells of rows, mm and inches, in the order of
// the job.
func (p *printer) columns(rows [][]string) [][]string {
	if p.inchFirst() {
		for _, row := range rows {
			row[1], row[2] = row[2], row[1]
		}
	}
	return rows
}

// across writes a diameter as it is taken from a list: without zeros on its end.
func (p *printer) across(mm float64) string {
	if p.inchFirst() {
		return figure(mm/unit.MillimetresPerInch) + " " + p.lengthUnit()
	}
	return figure(mm) + " " + p.lengthUnit()
}
