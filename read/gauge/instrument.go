package gauge

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Error is how far an instrument may be trusted, in mm, radians or plain
// numbers: the standard uncertainty of its zero, shared by all that it read;
// that of one reading about the zero, new each time; and the step of its scale,
// 0 where none is stated, which adds resolution²/12 to every reading.
type Error struct {
	Zero, Repeat, Resolution float64
}

// ErrorOf returns the error of an instrument from what it states. Zero and
// Repeat not stated are mpe/√6 each, so that together they have the variance of
// a rectangle ±mpe; an mpe not stated is that of its kind. What is missing and
// has no default, or cannot be, is an error that says what to write.
func ErrorOf(i *trade.Instrument) (Error, error) {
	if err := plausible(i); err != nil {
		return Error{}, err
	}
	e := Error{Resolution: inside(i.Resolution), Zero: inside(i.Zero), Repeat: inside(i.Repeat)}
	if !i.Zero.Given() || !i.Repeat.Given() {
		mpe, err := permissible(i)
		if err != nil {
			return Error{}, err
		}
		if !i.Zero.Given() {
			e.Zero = mpe / math.Sqrt(6)
		}
		if !i.Repeat.Given() {
			e.Repeat = mpe / math.Sqrt(6)
		}
	}
	if e.Repeat == 0 && e.Resolution == 0 {
		return Error{}, fmt.Errorf("instrument %s: a repeat of 0 leaves its readings without error: write its "+
			"resolution too", i.ID)
	}
	return e, nil
}

// inside returns a stated figure as the program works with it, else 0.
func inside(q unit.Quantity) float64 {
	if !q.Given() {
		return 0
	}
	return q.Inside()
}

func plausible(i *trade.Instrument) error {
	if i.Resolution.Given() && i.Resolution.Sign() <= 0 {
		return fmt.Errorf("instrument %s: its resolution is %s: write a step above 0, or leave it out",
			i.ID, i.Resolution)
	}
	for _, stated := range []struct {
		name  string
		value unit.Quantity
	}{{"mpe", i.MPE}, {"zero", i.Zero}, {"repeat", i.Repeat}} {
		if stated.value.Sign() < 0 {
			return fmt.Errorf("instrument %s: its %s is %s: write it without the sign", i.ID, stated.name, stated.value)
		}
	}
	return nil
}

// permissible returns the maximum permissible error stated, else that of the
// kind.
func permissible(i *trade.Instrument) (float64, error) {
	if i.MPE.Given() {
		return i.MPE.Inside(), nil
	}
	kind, _ := InstrumentOf(i.Kind)
	mpe, known := kind.permissible(inside(i.Resolution))
	switch {
	case known:
		return mpe, nil
	case kind.ErrorOfScale:
		return 0, fmt.Errorf("instrument %s: a %s's error is taken from its scale: write its resolution, or mpe",
			i.ID, kind.Name)
	}
	return 0, fmt.Errorf("instrument %s: nothing is known of the error of the kind %s: write mpe, or zero and repeat",
		i.ID, i.Kind)
}
