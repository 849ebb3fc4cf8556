package web_test

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// bench is a page over a record of its own with one job in it.
type bench struct {
	t testing.TB
	web.Config
	page http.Handler
	wait func(task string) // until long work has ended
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
	b := &bench{t: t, Config: web.Config{Record: s, Now: time.Now, Log: slog.New(slog.DiscardHandler)}}
	b.page, b.wait = web.NewWaiting(b.Config, web.Guard{})
	saved, err := b.Record.Save(context.Background(), record.Save{Stamp: record.Stamp{When: time.Now()}, Source: []byte(source), Index: index.Any([]byte(source))})
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

// TestTakeNothingWrong: what is wrong is said at its field, nothing is saved, and
// all that was typed is in the form again.
func TestTakeNothingWrong(t *testing.T) {
	for _, test := range []struct {
		name, method string
		fields       []string
		want         string
	}{
		{"nothing chosen", "over-two-pins", []string{"saw", "62.01"}, "Choose what stands here"},
		{"no figure", "outside", []string{"of.size", "wall", "with", "mic", "saw", "sixty"}, `id="wrong-saw"`},
		{"nothing seen", "outside", []string{"of.size", "wall", "with", "mic"}, "Type what it showed"},
		{"no instrument", "outside", []string{"of.size", "wall", "saw", "62.01"}, "Choose the instrument"},
		{"a name that is taken", "outside", []string{"of.size", "+size", "of.size.name", "wall", "with", "mic", "saw", "62.01"}, "is there already"},
		{"no name", "outside", []string{"of.size", "+size", "of.size.name", "<b>ø", "with", "mic", "saw", "62.01"}, "&lt;b&gt;ø"},
		{"a piece without a size", "over-two-pins", []string{"of.wall", "wall", "of.pin", "+piece", "with", "mic", "saw", "62.01"}, "Type its size"},
		{"half a touch", "touch", []string{"of.circle", "+circle", "of.circle.diameter", "wall", "of.stylus", "pin6", "of.side.value", "1", "with", "cal", "saw", "1"}, "Each touch has an x and a y"},
		{"only what goes", "outside", []string{"of.size", "wall", "with", "=gonogo", "goes", "62.1"}, "Name the gauge piece"},
		{"the wrong way round", "outside", []string{"of.size", "wall", "with", "=gonogo", "goes", "50", "stops", "51"}, "role=\"alert\""},
		{"a negative diameter", "outside", []string{"of.size", "wall", "with", "mic", "saw", "-3"}, "role=\"alert\""},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBench(t, groove)
			w := b.send("take/by/"+test.method, test.fields...)
			page := w.Body.String()
			if w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, test.want) {
				t.Errorf("status %d, without %q: %s", w.Code, test.want, plainWrongs(page))
			}
			if b.source() != groove {
				t.Errorf("it was saved:\n%s", b.source())
			}
			if i := len(test.fields) - 1; !strings.Contains(page, `value="`+strings.NewReplacer("<", "&lt;", ">", "&gt;").Replace(test.fields[i])+`"`) {
				t.Errorf("%s is not in the form any more", test.fields[i])
			}
		})
	}
}

// TestTakeTwice: a form that is sent twice is saved once.
func TestTakeTwice(t *testing.T) {
	b := newBench(t, groove)
	form := url.Values{"from": {"1"}, "of.wall": {"wall"}, "of.pin": {"pin6"}, "with": {"mic"}, "saw": {"62.03"}}
	for range 2 {
		if w := b.ask(http.MethodPost, "take/by/over-two-pins", form); w.Code != http.StatusSeeOther {
			t.Fatalf("status %d", w.Code)
		}
	}
	if n := strings.Count(b.source(), "62.03"); n != 1 {
		t.Errorf("it is there %d times", n)
	}
}

// TestTakeNext: what is set up alike needs only its value.
func TestTakeNext(t *testing.T) {
	b := newBench(t, groove)
	w := b.send("take/by/over-two-pins", "of.wall", "wall", "of.pin", "pin6", "with", "mic", "saw", "62.03", "next", "yes")
	if to := w.Header().Get("Location"); to != "/job/"+b.job+"/take/by/over-two-pins?like=r1" {
		t.Fatalf("it leads to %s", to)
	}
	page := b.see("take/by/over-two-pins?like=r1")
	for _, want := range []string{`value="wall" selected`, `value="pin6" selected`, `value="mic" selected`, "The set-up", "autofocus"} {
		if !strings.Contains(page, want) {
			t.Errorf("%s is not there", want)
		}
	}
	if strings.Contains(page, "62.03") {
		t.Error("the value is there as if it had been read again")
	}
	if page = b.see("take/by/over-two-pins?change=a"); !strings.Contains(page, "62.01 mm") || !strings.Contains(page, "Change reading a") {
		t.Error("a reading that is to be changed is not filled in")
	}
}

// TestTakeCheck: a slip is told before it is saved. By the groove's other
// readings m = 50.015 + 12 mm; the micrometer's thimble advances 0.5 mm a turn.
func TestTakeCheck(t *testing.T) {
	known := []string{"of.wall", "wall", "of.pin", "pin6", "with", "mic"}
	for _, test := range []struct {
		name   string
		fields []string
		want   []string
	}{
		{"nothing typed", known, []string{"It should show 62.0"}},
		{"it agrees", append(known, "saw", "62.02"), []string{"wall: 50.0"}},
		{"a turn too many", append(known, "saw", "62.52"), []string{"turn of the thimble", "doubt"}},
		{"a new size", []string{"of.size", "+size", "of.size.name", "rim", "with", "mic", "saw", "70"}, []string{"rim is found: 70.0"}},
		{"half typed", []string{"of.size", "", "saw", "7"}, []string{`id="outlook"`}},
		{"unreadable", append(known, "saw", "6x"), []string{`id="wrong-saw"`}},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBench(t, groove)
			method := "over-two-pins"
			if test.fields[0] == "of.size" {
				method = "outside"
			}
			w := b.send("take/by/"+method+"/check", test.fields...)
			for _, want := range test.want {
				if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) {
					t.Errorf("status %d, without %q:\n%s", w.Code, want, outlookIn(w.Body.String()))
				}
			}
			if b.source() != groove {
				t.Error("it was saved")
			}
		})
	}
}

func outlookIn(page string) string {
	_, after, _ := strings.Cut(page, `id="outlook"`)
	before, _, _ := strings.Cut(after, "<button")
	return before
}

// TestFromShop: a tool of the shop is copied into the job when it is used.
func TestFromShop(t *testing.T) {
	b := newBench(t, groove)
	for _, tool := range []record.Tool{
		{ID: "roll8", Class: record.Piece, Kind: "roller", Size: record.Size{Text: "8 mm", MM: 8}, Tolerance: "0.002 mm"},
		{ID: "bigmic", Class: record.Instrument, Kind: "micrometer", Written: "resolution: 0.01 mm, mpe: 0.008 mm"},
	} {
		if err := b.Record.PutTool(context.Background(), tool); err != nil {
			t.Fatal(err)
		}
	}
	if page := b.see("take/by/over-two-pins"); !strings.Contains(page, "shop:roll8") || !strings.Contains(page, "shop:bigmic") {
		t.Error("the shop's kit is not offered")
	}
	b.send("take/by/over-two-pins", "of.wall", "wall", "of.pin", "shop:roll8", "with", "shop:bigmic", "saw", "66.03")
	for _, want := range []string{"roll8:", "size: 8 mm", "tolerance: 0.002 mm", "bigmic:", "mpe: 0.008 mm", "pin: roll8", "with: bigmic"} {
		if !strings.Contains(b.source(), want) {
			t.Errorf("%q is not in\n%s", want, b.source())
		}
	}
}

// TestEveryMethodIsOffered: each has its page, from what one reaches for.
func TestEveryMethodIsOffered(t *testing.T) {
	b := newBench(t, groove)
	found := map[string]bool{"formula": true}
	for _, reach := range gauge.Reaches() {
		if !strings.Contains(b.see("take"), "take/"+reach.ID+`"`) {
			t.Errorf("%s is not asked for", reach.ID)
		}
		if len(reach.Methods) == 1 {
			continue
		}
		page := b.see("take/" + reach.ID)
		for _, m := range reach.Methods {
			found[m.ID] = found[m.ID] || strings.Contains(page, "take/by/"+m.ID+`"`)
		}
	}
	for _, m := range gauge.Methods() {
		if !found[m.ID] {
			t.Errorf("nothing leads to %s", m.ID)
		}
		if page := b.see("take/by/" + m.ID); m.Sketch != nil && !strings.Contains(page, "<svg") {
			t.Errorf("%s has no picture", m.ID)
		}
	}
}

// TestAnEntryHasItsPage adds a method in memory: the page leads to it, draws it,
// asks for what stands in its roles, and takes a reading by it.
func TestAnEntryHasItsPage(t *testing.T) {
	like, _ := gauge.Find("over-two-pins")
	m := *like
	m.ID, m.When = "over-two-rods", "A wall read over two rods."
	m.For = []gauge.Purpose{{Aim: gauge.UndercutWall, Rank: 9}}
	t.Cleanup(gauge.Add(&m))
	b := newBench(t, groove)
	if page := b.see("take/wall"); !strings.Contains(page, "take/by/over-two-rods") || !strings.Contains(page, m.When) {
		t.Error("nothing leads to the method")
	}
	page := b.see("take/by/over-two-rods")
	for _, want := range []string{"<svg", "of.wall", "of.pin", m.Formula} {
		if !strings.Contains(page, want) {
			t.Errorf("its page has no %s", want)
		}
	}
	if w := b.send("take/by/over-two-rods", "of.wall", "wall", "of.pin", "pin6", "with", "cal", "saw", "62.03"); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, w.Body)
	}
	if !strings.Contains(b.source(), "by: over-two-rods") {
		t.Errorf("the reading is not in\n%s", b.source())
	}
}
