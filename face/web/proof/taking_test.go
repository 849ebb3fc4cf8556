package proof

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// TestTakeAReading takes the first readings of a job on a telephone: from the
// picture to the figures, a slip told while it is typed, the next of the same with
// nothing but its value, and the value read again, set aside and taken back.
func TestTakeAReading(t *testing.T) {
	s := fresh(t)
	at := s.send("/new", "once", "CDEFGH", "name", "Ring of a drill turntable", "units", "mm")
	job := strings.TrimSuffix(at, "/readings")
	p := open(t, browser(t), s, phone)
	p.visit(job)
	p.press("Take a reading")
	p.press("An undercut wall")
	p.accessible()
	p.press("Over two pins")
	p.accessible()
	p.fill("Wear makes it", "smaller: an outside surface")
	fill := `(() => { const form = document.querySelector(".taking"); const set = (name, value) => { form.elements[name].value = value; };
		set("of.wall.name", "wall"); set("of.pin.size", "6"); set("of.pin.piece-name", "pin6"); set("with.kind", "micrometer"); set("with.name", "mic"); set("with.resolution", "0.01");
		document.querySelector("[data-value]").focus(); return true; })()`
	ask[bool](p, fill)
	p.key("62.01")
	p.enter()
	p.key("62.02")
	p.wait("document.querySelectorAll('[data-value]')[1] === document.activeElement")
	p.says("wall is found: 50.01")
	p.accessible()
	p.press("Save, and on to the next like it")
	p.wait("location.search === '?like=r1' && document.activeElement.matches('[data-value]')")
	p.key("62.52")
	p.says("turn of the thimble")
	p.accessible()
	p.press("Save")
	p.wait("location.pathname.endsWith('/readings')")
	p.says("62.52 mm")
	p.accessible()
	p.press("More")
	p.fill("Why", "turn misread")
	p.press("Set aside")
	p.says("set aside: turn misread")
	p.press("Read again")
	p.wait("document.activeElement.matches('[data-value]')")
	p.key("62.02")
	p.key(kb.Enter)
	p.says("1 of 1 sizes found")
	p.wait("document.querySelectorAll('#reading-r2 .saw li').length === 2")
	p.press("Read this next")
	p.accessible()
}

// enter presses the enter key as a keyboard does: where the page takes it there is
// no letter after it, which the browser's remote control would send all the same.
func (p *tab) enter() {
	p.t.Helper()
	ask[bool](p, `document.activeElement.dispatchEvent(new KeyboardEvent("keydown", {key: "Enter", bubbles: true, cancelable: true})) || true`)
}
