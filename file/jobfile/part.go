package jobfile

import (
	"codeberg.org/oddleg/oddleg/job/trade"
)

// partReader reads what is to be made.
type partReader struct{ *values }

// readPart reads what is to be made. Its sizes come before what names them.
func (r partReader) readPart(f fields) {
	if !f.has("part") {
		return
	}
	p := f.item("part", f.at("part"), "part")
	if p.absent() {
		return
	}
	r.job.Part = &trade.Part{
		Name:     r.job.Name,
		Kind:     trade.PartKind(p.text("kind")),
		Material: p.text("material"),
		Quantity: max(1, p.whole("quantity")),
		Holds:    p.quantity("holds"),
		Chance:   got[float64](p, "chance"),
		Revision: p.text("revision"),
		Pos:      f.keys["part"].Pos,
	}
	if name := p.text("name"); name != "" {
		r.job.Part.Name = name
	}
	r.readNewSizes(p)
	r.partNames = append(r.madeNames(), r.names...)
	r.readStacks(p)
	r.readMates(p)
	shapeReader{holeReader(r)}.readShape(p)
}
