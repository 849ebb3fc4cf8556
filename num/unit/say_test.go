package unit

import (
	"math"
	"testing"
)

// TestTextsAreWrittenWhenShown: one text in both units, another text and an amount
// in it. By hand: 12.7 mm are half an inch, 6.35 mm a quarter.
func TestTextsAreWrittenWhenShown(t *testing.T) {
	inner := Say("bore of %s", LengthOf(12.7))
	text := Say("a %s does not go into a %s (%d times): %s", Words("pin"), inner, 3, Join([]Text{Say("%s", LengthOf(6.35)), Words("no")}, "; "))
	for _, c := range []struct {
		view View
		want string
	}{
		{View{}, "a pin does not go into a bore of 12.700 mm (3 times): 6.350 mm; no"},
		{View{In: Inch}, "a pin does not go into a bore of 0.5000 in (3 times): 0.2500 in; no"},
	} {
		if got := text.Shown(c.view); got != c.want {
			t.Errorf("%v: %q, want %q", c.view, got, c.want)
		}
	}
}

// TestTextsAlike: by what they say, not by how they were made.
func TestTextsAlike(t *testing.T) {
	if !Say("%s up", LengthOf(1)).Is(Words("1.000 mm up")) || Say("%s up", LengthOf(1)).Is(Say("%s up", LengthOf(2))) {
		t.Error("texts are not compared by what they say")
	}
	if !Join(nil, "; ").Empty() || !(Text{}).Empty() || Words("a").Empty() {
		t.Error("empty texts are not told from others")
	}
}

// TestResolved: by hand. U of 0.011 mm is 0.00043 in; 5.0066° is 0.0873817 rad.
func TestResolved(t *testing.T) {
	for _, c := range []struct {
		amount Resolved
		view   View
		want   string
	}{
		{Resolved{12.7049, 0.011, Length}, View{}, "12.705 mm"},
		{Resolved{12.7049, 0.011, Length}, View{In: Inch}, "0.50019 in"},
		{Resolved{5.0066 * math.Pi / 180, 0.016 * math.Pi / 180, Angle}, View{In: Inch}, "5.007°"},
		{Resolved{20, 0.25, Number}, View{In: Inch}, "20.00"},
		{Resolved{3, 0, Length}, View{}, "3 mm"},
	} {
		if got := c.amount.Shown(c.view); got != c.want {
			t.Errorf("%+v: %q, want %q", c.amount, got, c.want)
		}
	}
}
