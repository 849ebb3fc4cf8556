package unit

import (
	"math/big"
	"testing"
)

// TestExact: an inch is 25.4 mm = 127/5 mm, so 8 tpi is 127/40 mm.
func TestExact(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		u        Unit
		want     *big.Rat
	}{
		{8, 1, ThreadsPerInch, big.NewRat(127, 40)},
		{1, 3, Inch, big.NewRat(127, 15)},
		{5, 4, Millimetre, big.NewRat(5, 4)},
		{2, 1, Kilonewton, big.NewRat(2000, 1)},
		{-1, 2, One, big.NewRat(-1, 2)},
	} {
		q, err := New(c.num, c.den, c.u)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.Exact(); got.Cmp(c.want) != 0 {
			t.Errorf("%v is %v exactly, want %v", q, got, c.want)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("an angle is given as a fraction")
		}
	}()
	Quantity{num: 1, den: 20, unit: TaperRatio}.Exact()
}
