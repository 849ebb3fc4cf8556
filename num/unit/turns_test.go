package unit

import (
	"math"
	"math/big"
	"testing"
)

// TestTurns: degrees are exact, others are as near as a float64 is.
func TestTurns(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"17.5deg": big.NewRat(7, 144), "0d 24m": big.NewRat(1, 900), "-90 deg": big.NewRat(-1, 4),
	} {
		q, err := ParseAngle(text)
		if err != nil {
			t.Fatal(err)
		}
		if q.Turns().Cmp(want) != 0 {
			t.Errorf("%s is %v turns, want %v", text, q.Turns(), want)
		}
	}
	q, err := ParseAngle("0.5 rad")
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := q.Turns().Float64(); got != 0.5/(2*math.Pi) {
		t.Errorf("0.5 rad is %v turns", got)
	}
}
