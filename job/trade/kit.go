package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// InstrumentKind is what an instrument is called in the trade.
type InstrumentKind string

// The kinds of instrument that the program names. What is known of each, and
// which there are, stands in read/gauge.
const (
	Caliper         InstrumentKind = "caliper"
	Micrometer      InstrumentKind = "micrometer"
	DepthGauge      InstrumentKind = "depth-gauge"
	DepthMicrometer InstrumentKind = "depth-micrometer"
	HeightGauge     InstrumentKind = "height-gauge"
	BoreGauge       InstrumentKind = "bore-gauge"
	Dial            InstrumentKind = "dial"
	Rule            InstrumentKind = "rule"
	Protractor      InstrumentKind = "protractor"
	Readout         InstrumentKind = "readout"
	Scale           InstrumentKind = "scale"
	OtherInstrument InstrumentKind = "other"
)

// Instrument shows a reading. What it does not state is a Quantity not given.
type Instrument struct {
	ID         string
	Kind       InstrumentKind
	Resolution unit.Quantity // step of the scale or display
	MPE        unit.Quantity // maximum permissible error, ±
	Zero       unit.Quantity // standard uncertainty of its zero
	Repeat     unit.Quantity // standard uncertainty of one reading about the zero
	Say        string
	Pos        Pos
}

// PieceKind is what a gauge piece is called in the trade.
type PieceKind string

// The kinds of gauge piece that the program names; see read/gauge.
const (
	Pin        PieceKind = "pin"
	Ball       PieceKind = "ball"
	Roller     PieceKind = "roller"
	Wire       PieceKind = "wire"
	Plug       PieceKind = "plug"
	Block      PieceKind = "block"
	Bar        PieceKind = "bar"
	Rod        PieceKind = "rod"
	Stylus     PieceKind = "stylus"
	OtherPiece PieceKind = "other"
)

// Piece is a gauge piece: something of known size put between work and
// instrument. Without a tolerance it is exact.
type Piece struct {
	ID        string
	Kind      PieceKind
	Size      unit.Quantity
	Tolerance unit.Quantity // ±t, standard uncertainty t/√3
	Say       string
	Pos       Pos
}
