package ink

// Paper is a size of paper.
type Paper uint8

// The papers. AnyPaper is A4, or A3 where A4 will not do.
const (
	AnyPaper Paper = iota
	A4
	A3
	Letter
)

// Size returns the width and height of a paper in mm as it lies (ISO 216, and
// 8½ × 11 in); AnyPaper is A4.
func (p Paper) Size(portrait bool) (width, height float64) {
	switch p {
	case A3:
		width, height = 420, 297
	case Letter:
		width, height = 279.4, 215.9
	default:
		width, height = 297, 210
	}
	if portrait {
		return height, width
	}
	return width, height
}

// Blank returns an empty sheet of a paper; AnyPaper is A4.
func Blank(p Paper, portrait bool) *Sheet {
	width, height := p.Size(portrait)
	return &Sheet{Width: width, Height: height, Scale: 1}
}
