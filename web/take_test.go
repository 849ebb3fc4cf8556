package web_test

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"oddleg/cmd/wired"
	"oddleg/record"
	"oddleg/store"
	"oddleg/web"
)

// bench is a page over a record of its own with one job in it.
type bench struct {
	t testing.TB
	web.Bench
	page http.Handler
	job  string
}

// newBench saves a job and serves it.
func newBench(t testing.TB, source string) *bench {
	t.Helper()
	s, err := store.Make(filepath.Join(t.TempDir(), "shop.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	b := &bench{t: t, Bench: wired.Bench(s, slog.New(slog.NewTextHandler(io.Discard, nil)))}
	b.page = web.New(b.Bench, web.Guard{})
	index, _ := b.Index([]byte(source))
	saved, err := b.Record.Save(context.Background(), record.Save{Stamp: record.Stamp{When: time.Now()}, Source: []byte(source), Index: index})
	if err != nil {
		t.Fatal(err)
	}
	b.job = saved.Job
	return b
}

// ask sends a request to a page of the job.
func (b *bench) ask(method, page string, form url.Values) *httptest.ResponseRecorder {
	b.t.Helper()
	r := httptest.NewRequest(method, "http://localhost/job/"+b.job+"/"+page, strings.NewReader(form.Encode()))
	r.RemoteAddr = "127.0.0.1:40000"
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	w := httptest.NewRecorder()
	b.page.ServeHTTP(w, r)
	return w
}

// see returns a page that must be there.
func (b *bench) see(page string) string {
	b.t.Helper()
	w := b.ask(http.MethodGet, page, nil)
	if w.Code != http.StatusOK {
		b.t.Fatalf("%s: status %d\n%s", page, w.Code, w.Body)
	}
	return w.Body.String()
}

// send posts a form made at the current revision and returns the status.
func (b *bench) send(page string, fields ...string) *httptest.ResponseRecorder {
	b.t.Helper()
	form := url.Values{"from": {strconv.Itoa(b.revision())}}
	for i := 0; i < len(fields); i += 2 {
		form.Add(fields[i], fields[i+1])
	}
	return b.ask(http.MethodPost, page, form)
}

func (b *bench) revision() int {
	b.t.Helper()
	job, err := b.Record.Job(context.Background(), b.job)
	if err != nil {
		b.t.Fatal(err)
	}
	return job.Revision
}

// source returns the text of the job as it is now.
func (b *bench) source() string {
	b.t.Helper()
	source, err := b.Record.Source(context.Background(), b.job, b.revision())
	if err != nil {
		b.t.Fatal(err)
	}
	return string(source)
}

// begun is a job in which nothing has been read.
const begun = "oddleg: 1\njob: Drill turntable   # the ring is lost\nunits: mm\n"

// groove is one with a wall that was read over pins. The figures are constructed.
const groove = `oddleg: 1
job: Press ring
units: mm
kit:
  mic:  {kind: micrometer, resolution: 0.01 mm}
  cal:  {kind: caliper, resolution: 0.01 mm}
  pin6: {kind: pin, size: 6 mm, tolerance: 0.002 mm}   # from the long box
sizes:
  wall: {kind: diameter, surface: outside, wear: light}
readings:
  - {id: a, by: over-two-pins, of: {wall: wall, pin: pin6}, with: mic, saw: [62.01, 62.02]}
  - {id: b, by: over-two-pins, of: {wall: wall, pin: pin6}, with: cal, saw: 62.02}
`

func TestTakeReading(t *testing.T) {
	for _, test := range []struct {
		name, job, method string
		fields            []string
		want              []string // in the text after it
	}{
		{"everything new", begun, "over-two-pins", []string{
			"of.wall", "+size", "of.wall.name", "groove wall", "of.wall.kind", "diameter", "of.wall.surface", "outside", "of.wall.wear", "light",
			"of.pin", "+piece", "of.pin.piece", "pin", "of.pin.size", "15/32 in", "of.pin.tolerance", "0.002",
			"with", "+tool", "with.kind", "micrometer", "with.name", "mic", "with.resolution", "0.01", "saw", "62.01", "saw", "", "saw", "62.02", "unit", "mm",
		}, []string{
			"# the ring is lost", "groove_wall:", "kind: diameter", "wear: light", "size: 15/32 in", "kind: micrometer",
			"by: over-two-pins", "62.01", "62.02",
		}},
		{"known things", groove, "over-two-pins", []string{"of.wall", "wall", "of.pin", "pin6", "with", "mic", "saw", "62.03"}, []string{
			"{id: r1, by: over-two-pins, of: {wall: wall, pin: pin6}, with: mic, saw: 62.03}", "# from the long box",
		}},
		{"inches typed in a job in mm", groove, "outside", []string{"of.size", "wall", "with", "cal", "saw", "1 1/2", "saw", "12.7 mm", "unit", "in"}, []string{
			"saw: [1 1/2 in, 12.7 mm]",
		}},
		{"goes and stops", groove, "inside", []string{
			"of.size", "+size", "of.size.name", "slot", "of.size.kind", "width", "of.size.surface", "inside", "with", "=gonogo", "goes", "pin6", "stops", "6.2", "unit", "mm",
		}, []string{"goes: pin6", "stops: 6.2"}},
		{"a plain value and a count", groove, "bolt-circle-chord", []string{
			"of.circle", "+size", "of.circle.name", "ring", "of.plug", "=plain", "of.plug.value", "8", "of.holes.value", "6", "of.apart.value", "2", "with", "cal", "saw", "70.5",
		}, []string{"plug: 8", "holes: 6", "apart: 2"}},
		{"holes", groove, "over-plugs", []string{
			"of.centres", "=holes", "of.centres.from", "h1", "of.centres.to", "h2", "of.plug-1", "pin6", "of.plug-2", "pin6", "with", "cal", "saw", "53.6",
		}, []string{"holes: [h1, h2]", "from: h1", "to: h2"}},
		{"touches", groove + "places: {rim: {kind: circle, diameter: wall}}\n", "touch", []string{
			"of.circle", "rim", "of.stylus", "=plain", "of.stylus.value", "2", "of.side.value", "1", "with", "+tool", "with.kind", "readout", "with.name", "dro",
			"saw", "26", "saw.y", "0", "saw", "-26", "saw.y", "0", "saw", "0", "saw.y", "26",
		}, []string{"circle: rim", "side: 1", "kind: readout", "[-26, 0]"}},
		{"a formula", groove, "formula", []string{"that", "wall - 2*pin6", "with", "mic", "saw", "38.02"}, []string{"that: wall - 2*pin6"}},
		{"changed", groove, "over-two-pins", []string{"changes", "b", "of.wall", "wall", "of.pin", "pin6", "with", "mic", "saw", "62.00", "say", "at the front"}, []string{
			"{id: b, by: over-two-pins, of: {wall: wall, pin: pin6}, with: mic, saw: 62.00, say: at the front}",
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBench(t, test.job)
			if w := b.send("take/by/"+test.method, test.fields...); w.Code != http.StatusSeeOther {
				t.Fatalf("status %d\n%s", w.Code, plainWrongs(w.Body.String()))
			}
			text := b.source()
			for _, want := range test.want {
				if !strings.Contains(text, want) {
					t.Errorf("%q is not in\n%s", want, text)
				}
			}
			if strings.Contains(b.see("readings"), "cannot be read as it is") {
				t.Errorf("what was written cannot be read:\n%s", text)
			}
		})
	}
}

// plainWrongs returns what a page says to be wrong.
func plainWrongs(page string) string {
	var list []string
	for _, line := range strings.Split(page, "<") {
		if strings.Contains(line, "doubt") || strings.HasPrefix(line, "li>") {
			list = append(list, line)
		}
	}
	return strings.Join(list, "\n")
}
