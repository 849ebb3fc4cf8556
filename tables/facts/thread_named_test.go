package facts

import (
	"strings"
	"testing"
)

func TestThreadNamed(t *testing.T) {
	for text, want := range map[string]string{"7/16bsw": "7/16 BSW", "m10": "M10", "M10 x 1.5": "M10", "m10 X 1": "M10x1"} {
		if got, err := ThreadNamed(text); err != nil || got.Designation != want {
			t.Errorf("%q is %s, want %s: %v", text, got.Designation, want, err)
		}
	}
	if _, err := ThreadNamed("7/16 BWS"); err == nil || !strings.Contains(err.Error(), "did you mean 7/16 BSW") {
		t.Errorf("%v", err)
	}
}
