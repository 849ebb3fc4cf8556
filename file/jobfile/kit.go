package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

var (
	shownKeys = []string{"resolution", "mpe", "zero", "repeat"} // of an instrument
	sizedKeys = []string{"size", "tolerance"}                   // of a piece
	otherKind = string(trade.OtherPiece)
)

// kitReader reads instruments and gauge pieces.
type kitReader struct{ *values }

// readKit reads instruments and gauge pieces, which share one section.
func (r kitReader) readKit(f fields) {
	for _, entry := range f.entries("kit") {
		before := r.faults.Count()
		k := f.item("kit", entry.Value, describe("kit entry", entry.Key))
		kind := k.text("kind")
		if r.isPiece(k, kind) {
			r.readPiece(k, entry.Key, trade.PieceKind(kind))
			continue
		}
		i := r.readInstrument(k, entry.Key, trade.InstrumentKind(kind))
		if r.faults.Count() == before {
			r.checkError(i, entry.Key, k.what)
		}
	}
}

// isPiece reports whether a kit entry is a gauge piece. One of kind other, or of
// a kind that is not known, is what its keys say.
func (r kitReader) isPiece(k fields, kind string) bool {
	if kind != otherKind && kind != "" {
		return slices.Contains(words(gauge.PieceKinds()), kind)
	}
	sized := k.hasAny(sizedKeys)
	if kind == otherKind && sized == k.hasAny(shownKeys) {
		r.fault(k.at("kind"), "%s: kind other is an instrument with a resolution or an error, or a piece with a size: "+
			"write the keys of one of them", k.what)
	}
	return sized
}

func (r kitReader) readInstrument(k fields, id yamltree.Node, kind trade.InstrumentKind) *trade.Instrument {
	read := r.instrumentReader(kind)
	i := trade.Instrument{
		ID:         id.Text,
		Kind:       kind,
		Resolution: k.quantityIn("resolution", read),
		MPE:        k.quantityIn("mpe", read),
		Zero:       k.quantityIn("zero", read),
		Repeat:     k.quantityIn("repeat", read),
		Say:        k.text("say"),
		Pos:        id.Pos,
	}
	r.claim(id, anInstrument, len(r.job.Instruments))
	r.job.Instruments = append(r.job.Instruments, i)
	return &i
}

// checkError faults an instrument whose error is not known.
func (r kitReader) checkError(i *trade.Instrument, id yamltree.Node, what string) {
	if !alike(i.Resolution, i.MPE, i.Zero, i.Repeat) {
		r.fault(id, "%s states lengths and angles: it shows one of them", what)
	} else if _, err := gauge.ErrorOf(i); err != nil {
		r.fault(id, "%s", err)
	}
}

// instrumentReader returns the reader of what an instrument of a kind states.
func (r kitReader) instrumentReader(kind trade.InstrumentKind) quantityReader {
	switch entry, _ := gauge.InstrumentOf(kind); {
	case entry.Angles:
		return unit.ParseAngle
	case entry.Either:
		return r.lengthOrAngle
	}
	return r.length
}

// lengthOrAngle reads a length, or an angle if it has the unit of one.
func (r kitReader) lengthOrAngle(text string) (unit.Quantity, error) {
	length, err := r.length(text)
	if err == nil {
		return length, nil
	}
	if angle, wrong := unit.ParseAngle(text); wrong == nil {
		return angle, nil
	}
	return length, err
}

// alike reports whether all quantities that are given measure the same.
func alike(list ...unit.Quantity) bool {
	var first unit.Quantity
	for _, q := range list {
		switch {
		case !q.Given():
		case !first.Given():
			first = q
		case q.Dimension() != first.Dimension():
			return false
		}
	}
	return true
}

func (r kitReader) readPiece(k fields, id yamltree.Node, kind trade.PieceKind) {
	if kind == "" || kind == trade.OtherPiece {
		k.refuse("a gauge piece has a size and a tolerance", shownKeys...)
		k.need("size")
	}
	r.claim(id, aPiece, len(r.job.Pieces))
	r.job.Pieces = append(r.job.Pieces, trade.Piece{
		ID:        id.Text,
		Kind:      kind,
		Size:      k.quantity("size"),
		Tolerance: k.quantity("tolerance"),
		Say:       k.text("say"),
		Pos:       id.Pos,
	})
}
