package proof

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// send posts a form of names and values by turns, as the page itself does, and
// returns where it leads.
func (s *server) send(path string, fields ...string) string {
	s.t.Helper()
	values := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		values.Add(fields[i], fields[i+1])
	}
	answer, err := http.PostForm(s.address+path, values)
	if err != nil {
		s.t.Fatal(err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		s.t.Fatalf("%s: %s", path, answer.Status)
	}
	return answer.Request.URL.Path
}

// TestFilledPages opens the pages that a new record has nothing for: kit, spares,
// the search, what was saved, two versions of a job, a text that is wrong.
func TestFilledPages(t *testing.T) {
	chromium := browser(t)
	s := fresh(t)
	at := s.send("/new", "once", "ABCDEF", "name", "Gib of the cross rail", "what", "planer", "built", "1921", "units", "mm")
	job := strings.TrimSuffix(at, "/readings")
	const text = "oddleg: 1\njob: Gib of the cross rail\nmachine: {what: planer, built: 1921}\nunits: mm\n"
	s.send(job+"/text", "from", "1", "text", text+"kit:\n  mic: {kind: micrometer}\n")
	both := s.send(job+"/text", "from", "1", "text", text+"kit:\n  mic: {kind: caliper, resolution: 0.02}\n")
	s.send(job+"/record", "once", "ABCDEFGHJKMNPQRS", "made", "2", "fitted", "1", "place", "drawer 4", "better", "scrape first")
	s.send("/kit/new/piece", "kind", "roller", "size", "5, 6, 8 mm", "tolerance", "0.002", "units", "mm")
	s.send("/kit/new/instrument", "id", "mic25", "kind", "micrometer", "resolution", "0.01", "units", "mm")
	wrong := strings.TrimSuffix(s.send("/new", "once", "BCDEFG", "name", "Half a job", "units", "mm"), "/readings")
	s.send(wrong+"/text", "from", "1", "text", text+"bogus: 1\n")
	for _, on := range []screen{phone, {name: "desktop, dark", width: 1280, height: 800, dark: true}} {
		t.Run(on.name, func(t *testing.T) {
			p := open(t, chromium, s, on)
			for _, path := range []string{
				"/", "/kit", "/kit/at/mic25", "/kit/at/roller_6mm", "/spares", "/machines", "/find?q=roller+6+mm",
				job + "/record", job + "/as/1", job + "/compare?old=1&new=2", job + "/text", job + "/text/kit", both, wrong + "/text",
			} {
				p.visit(path)
				p.accessible()
			}
		})
	}
}
