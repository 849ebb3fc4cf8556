package proof

import (
	"fmt"
	"testing"
)

// TestSolidTurns shows the part as a body and turns it with the keys: the
// picture changes, and nothing is complained of.
func TestSolidTurns(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	p.visit("/job/" + s.jobs()[0] + "/solid")
	p.wait("document.querySelector('canvas').dataset.shown === 'yes'")
	picture := `new Promise(done => requestAnimationFrame(() => { const c = document.querySelector("canvas"); c.dispatchEvent(new KeyboardEvent("keydown", {key: "%s"})); done(c.toDataURL()); }))`
	before := ask[string](p, fmt.Sprintf(picture, "Home"))
	after := ask[string](p, fmt.Sprintf(picture, "ArrowLeft"))
	if len(before) < 5000 {
		t.Error("the picture is empty")
	}
	if before == after {
		t.Error("the part does not turn")
	}
	p.accessible()
}
