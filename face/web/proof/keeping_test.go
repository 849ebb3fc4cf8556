package proof

import (
	"net"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
)

// TestHalfTyped: what is half typed outlives the page, a server that is gone and a
// form that is sent twice.
func TestHalfTyped(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	job := "/job/" + s.jobs()[0]
	p.visit(job + "/take/by/outside")
	p.fill("value 1", "7.8")

	p.visit(job + "/take/by/outside")
	p.says("What you had typed is here again.")
	if got := p.value("value 1"); got != "7.8" {
		t.Errorf("after a reload the field has %q", got)
	}
	p.press("Forget it")
	if got := p.value("value 1"); got != "" {
		t.Errorf("what was to be forgotten is there: %q", got)
	}
}

// TestNoConnection: a form that nobody answers is kept and sent when the server is
// there again, and is saved once.
func TestNoConnection(t *testing.T) {
	address := freeAddress(t)
	s := fresh(t, "--listen", address)
	p := open(t, browser(t), s, phone)
	p.lonely = true // the browser complains of a server that is gone
	job := "/job/" + s.jobs()[0]
	before := revisions(s, job)
	p.visit(job + "/readings")
	p.press("Read again: l")
	p.fill("It showed", "7.89")
	s.kill()
	p.press("Save")
	p.says("one entry is kept in this browser")

	s = serve(t, s.shop, "--listen", address)
	p.says("Sent: what had waited is saved (1)")
	p.visit(job + "/readings")
	p.says("7.89 mm")
	if n := revisions(s, job); n != before+1 {
		t.Errorf("%d revisions were made, want 1", n-before)
	}
}

// TestTwoPeople: the later of two saves is shown beside the earlier one, and both
// can be taken.
func TestTwoPeople(t *testing.T) {
	s := fresh(t)
	chromium := browser(t)
	first, second := open(t, chromium, s, desktop), open(t, chromium, s, phone)
	job := "/job/" + s.jobs()[0]
	for _, p := range []*tab{first, second} {
		p.visit(job + "/readings")
	}
	for p, reading := range map[*tab]string{first: "l", second: "o"} {
		call(p, page.BringToFront, cdp.Empty{})
		p.press("Read again: " + reading)
		p.fill("It showed", map[string]string{"l": "7.91", "o": "64.98"}[reading])
	}
	first.press("Save")
	second.press("Save")
	if at := second.path(); !strings.Contains(at, "/both/") {
		t.Fatalf("the later save leads to %s", at)
	}
	second.accessible()
	second.press("Take both")
	second.visit(job + "/readings")
	second.says("7.91 mm")
	second.says("64.98 mm")
}

// value returns what stands in a field.
func (p *tab) value(label string) string {
	p.t.Helper()
	return ask[string](p, "document.querySelector("+quoted(p.field(label))+").value")
}

// revisions counts those of a job.
func revisions(s *server, job string) int {
	s.t.Helper()
	return strings.Count(s.get(job+"/record"), `href="`+job+`/as/`)
}

// freeAddress is one that a server can listen on, twice in turn.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}
