package web_test

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/record"
)

// posts are the patterns of all forms, without their method.
func posts(d *door) []string { return patterns(d, http.MethodPost) }

func patterns(d *door, method string) []string {
	var list []string
	for _, pattern := range web.Patterns(d.bench) {
		if path, ok := strings.CutPrefix(pattern, method+" "); ok {
			list = append(list, path)
		}
	}
	return list
}

// TestPaths puts what leads elsewhere into every place of every path.
func TestPaths(t *testing.T) {
	d := newDoor(t, web.Guard{})
	seen := map[string]bool{}
	values := []string{
		"..", "../../../etc/passwd", "..\\..\\x", "\x00", "a\x00b", "\xff\xfe", "%2e%2e%2f", "<script>alert(1)</script>",
		"C:\\windows", "-1", "0", "99999999999999999999", "' OR 1=1 --", "*", strings.Repeat("x", 5000),
	}
	if testing.Short() {
		values = values[:4]
	}
	for _, value := range values {
		for _, pattern := range patterns(d, http.MethodGet) {
			for _, path := range []string{filled(d, pattern, value), placeholder.ReplaceAllString(strings.TrimSuffix(pattern, "{$}"), url.PathEscape(value))} {
				if seen[path] {
					continue
				}
				seen[path] = true
				answer := d.get(path)
				if text := d.said(answer); answer.StatusCode >= 500 || strings.Contains(text, "root:") || strings.Contains(text, "<script>alert") {
					t.Errorf("GET %s: %d, %.300s", path, answer.StatusCode, text)
				}
			}
		}
		for _, pattern := range posts(d) {
			if answer := d.post(filled(d, pattern, value), url.Values{"from": {"1"}}); answer.StatusCode >= 500 {
				t.Errorf("POST %s: %d, %.300s", pattern, answer.StatusCode, d.said(answer))
			}
		}
	}
	for _, path := range []string{"/a/../../etc/passwd", "/a/%2e%2e/%2e%2e/etc/passwd", "/..%2f..%2fetc%2fpasswd", "/a/x/..%2f..%2fweb.go", "/%00", "//etc/passwd"} {
		answer := d.get(path)
		if text := d.said(answer); answer.StatusCode >= 500 || strings.Contains(text, "root:") || strings.Contains(text, "package web") {
			t.Errorf("%s: %d, %.300s", path, answer.StatusCode, text)
		}
	}
	if d.log.Len() > 0 {
		t.Errorf("it was not all foreseen: %.2000s", d.log)
	}
}

// TestTooMuch sends every form more than it may, as a field and as a file.
func TestTooMuch(t *testing.T) {
	d := newDoor(t, web.Guard{})
	huge := "text=" + strings.Repeat("x", 10<<20)
	for _, pattern := range posts(d) {
		path := filled(d, pattern, "x")
		d.wants(d.ask(http.MethodPost, path, "application/x-www-form-urlencoded", strings.NewReader(huge)), http.StatusRequestEntityTooLarge, "too much at once")
	}
	if testing.Short() {
		return
	}
	file := io.MultiReader(strings.NewReader("--b\r\nContent-Disposition: form-data; name=\"picture\"; filename=\"x\"\r\n\r\n"), io.LimitReader(endless{}, 80<<20))
	d.wants(d.ask(http.MethodPost, filled(d, posts(d)[0], "x"), "multipart/form-data; boundary=b", file), http.StatusRequestEntityTooLarge, "too much at once")
}

// endless is a file without an end.
type endless struct{}

func (endless) Read(data []byte) (int, error) { clear(data); return len(data), nil }

// TestNoForm sends every form what is none, or is no text.
func TestNoForm(t *testing.T) {
	d := newDoor(t, web.Guard{})
	for _, c := range []struct{ kind, body, words string }{
		{"application/x-www-form-urlencoded", "text=%ff%fe&from=1", "is no text"},
		{"application/x-www-form-urlencoded", "%ff=1", "is no text"},
		{"application/x-www-form-urlencoded", "text=%zz", "cannot be read"},
		{"multipart/form-data; boundary=b", "--b\r\nContent-Dispo", "cannot be read"},
		{"multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\n\xff\r\n--b--\r\n", "is no text"},
		{"multipart/form-data", "", "cannot be read"},
	} {
		for _, pattern := range posts(d) {
			d.wants(d.ask(http.MethodPost, filled(d, pattern, "x"), c.kind, strings.NewReader(c.body)), http.StatusUnprocessableEntity, c.words)
		}
	}
	answer := d.ask(http.MethodPost, "/you/name", "application/x-www-form-urlencoded", strings.NewReader("name=caf%e9+%26+<b>&other=kept"))
	d.wants(answer, 422, `value="caf� &amp; &lt;b&gt;"`)
}

// TestZipBombs brings in parcels that unpack to more than they may.
func TestZipBombs(t *testing.T) {
	d := newDoor(t, web.Guard{})
	for name, size := range map[string]int64{"job.yaml": 30 << 20, "record.json": 30 << 20, "photographs/x.jpg": 1, "../../evil": 1} {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		w, err := z.Create(name)
		if err == nil {
			_, err = io.CopyN(w, endless{}, size)
		}
		if err != nil || z.Close() != nil {
			t.Fatal(err)
		}
		_, err = d.bench.Record.TakeParcel(context.Background(), bytes.NewReader(b.Bytes()), int64(b.Len()), index.Any, record.Stamp{When: d.bench.Now()})
		if err == nil {
			t.Errorf("a parcel with %d bytes of %s was taken in", size, name)
		}
	}
}

// mistaken is a record with a mistake in it.
type mistaken struct{ record.Keeper }

func (mistaken) Jobs(context.Context) ([]record.Job, error) { panic("store: constructed for a test") }

// TestMistake: a mistake of the program is told and written down, and all other
// pages go on.
func TestMistake(t *testing.T) {
	d := newDoor(t, web.Guard{})
	d.bench.Record = mistaken{d.bench.Record}
	d.page = web.New(d.bench, web.Guard{})
	d.wants(d.get("/"), http.StatusInternalServerError, "Nothing that was saved is lost")
	if log := d.log.String(); !strings.Contains(log, "constructed for a test") || !strings.Contains(log, "hostile_test.go") {
		t.Errorf("the log: %s", log)
	}
	d.wants(d.get("/you"), http.StatusOK, "Show lengths in")
}

// markup is what must never be part of a page: all fields are filled with it.
const markup = `"'><script>alert("oddleg")</script><img src=x onerror=alert(1)>`

// alive is markup that has become part of a page.
var alive = regexp.MustCompile(`<script>alert|<img src=x|"'>`)

// says are the texts in a job's file.
var says = regexp.MustCompile(`\b(say|job|what|country|name): ("[^"\n]*"|[^,}\n]+)`)

// TestMarkupIsText fills everything that holds text with markup, and every form
// too, and looks at every page.
func TestMarkupIsText(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true})
	job := marked(d)
	d.joined(`<img src=x onerror=alert(1)>`, "look")
	c := crawl{door: d, job: job, seen: map[string]bool{}, most: 100}
	if os.Getenv("ODDLEG_LONG") != "" {
		c.most = 2000
	} else if testing.Short() {
		c.most = 40
	}
	c.walk("/", "/you", "/find?q="+url.QueryEscape(markup), "/find?words="+url.QueryEscape(markup), "/nowhere/"+url.PathEscape(markup), "/job/"+job+"/readings")
	for _, form := range c.forms {
		answer := d.post(asSent(form.action), form.filled())
		c.look(form.action, answer)
	}
	c.seen = map[string]bool{}
	c.walk("/", "/you", "/job/"+job+"/readings")
	t.Logf("%d pages, %d forms", len(c.seen), len(c.forms))
	if len(c.seen) < 10 || len(c.forms) < 3 {
		t.Error("too little was looked at to say anything")
	}
}

// marked puts markup into the record by every way that does not need a form.
func marked(d *door) (job string) {
	d.t.Helper()
	ctx, stamp := context.Background(), record.Stamp{When: d.bench.Now(), Who: markup, Note: markup}
	source := says.ReplaceAll(examples.Jobs()[0].Source, fmt.Appendf(nil, "$1: '%s'", strings.ReplaceAll(markup, "'", "''")))
	if _, err := jobfile.ReadPlanned("", source); err != nil {
		d.t.Fatalf("the job cannot be read with markup in its texts: %v", err)
	}
	saved, err := d.bench.Record.Save(ctx, record.Save{Stamp: stamp, Source: source, Index: index.Any(source)})
	if err != nil {
		d.t.Fatal(err)
	}
	photo, err := d.bench.Record.AddPhotograph(ctx, record.Photograph{Stamp: stamp, Job: saved.Job, Data: asJPEG(d.t, quarters(40, 30))})
	if err != nil {
		d.t.Fatal(err)
	}
	entry := record.Entry{Stamp: stamp, Job: saved.Job, Made: 2, Place: markup, Drawing: markup, Material: markup, How: markup, Better: markup}
	_, pinned := d.bench.Record.PutPin(ctx, saved.Job, photo.SHA256, record.Pin{X: .5, Y: .5, Say: markup}, stamp)
	_, shelved := d.bench.Record.Shelve(ctx, entry)
	put := d.bench.Record.PutTool(ctx, record.Tool{ID: markup, Class: record.Instrument, Kind: markup, Tolerance: markup, Written: markup, Say: markup})
	for _, err := range []error{pinned, shelved, put} {
		if err != nil {
			d.t.Fatal(err)
		}
	}
	return saved.Job
}

// crawl follows every link of the shop and of one job.
type crawl struct {
	*door
	job   string
	seen  map[string]bool
	most  int
	forms []pageForm
}

// pageForm is one of a page.
type pageForm struct {
	action, body string
}

var (
	links      = regexp.MustCompile(`(?:href|hx-get)="(/[^"]*)"`)
	formParts  = regexp.MustCompile(`(?s)<form([^>]*)>(.*?)</form>`)
	actions    = regexp.MustCompile(`(?:action|hx-post)="([^"]*)"`)
	fieldParts = regexp.MustCompile(`(?s)<(input|textarea|select|button)([^>]*)>(?:.*?<option[^>]*value="([^"]*)")?`)
	fieldNames = regexp.MustCompile(`\bname="([^"]*)"`)
	fieldTypes = regexp.MustCompile(`\btype="([^"]*)"`)
	fieldValue = regexp.MustCompile(`\bvalue="([^"]*)"`)
)

// walk looks at pages and at those they lead to.
func (c *crawl) walk(paths ...string) {
	for len(paths) > 0 && len(c.seen) < c.most {
		path := paths[0]
		paths = paths[1:]
		if c.seen[path] || strings.HasPrefix(path, "/a/") || strings.HasPrefix(path, "/shop.db") ||
			strings.HasPrefix(path, "/job/") && !strings.HasPrefix(path, "/job/"+c.job) {
			continue
		}
		c.seen[path] = true
		answer := c.get(asSent(path))
		if to := answer.Header.Get("Location"); to != "" {
			paths = append(paths, to)
		}
		page := c.look(path, answer)
		for _, link := range links.FindAllStringSubmatch(page, -1) {
			paths = append(paths, unescaped(link[1]))
		}
		for _, f := range formParts.FindAllStringSubmatch(page, -1) {
			if action := actions.FindStringSubmatch(f[1]); action != nil && strings.Contains(f[1], `method="post"`) && len(c.forms) < c.most {
				c.forms = append(c.forms, pageForm{action: unescaped(action[1]), body: f[2]})
			}
		}
	}
}

func unescaped(text string) string {
	return strings.NewReplacer("&amp;", "&", "&#34;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">").Replace(text)
}

// asSent is a link as a browser asks for it: what may not stand in one is coded.
func asSent(path string) string {
	parsed, err := url.Parse(path)
	if err != nil {
		return "/"
	}
	return parsed.String()
}

// look looks for markup in an answer that a browser shows as a page or a picture.
func (c *crawl) look(path string, answer *http.Response) string {
	page := c.said(answer)
	kind := answer.Header.Get("Content-Type")
	if answer.StatusCode == http.StatusInternalServerError {
		c.t.Errorf("%.200s: %d", path, answer.StatusCode)
	}
	if !strings.Contains(kind, "html") && !strings.Contains(kind, "svg") {
		return ""
	}
	if at := alive.FindStringIndex(page); at != nil {
		c.t.Errorf("%.200s: markup has become a part of it: %.300s", path, page[max(0, at[0]-200):])
	}
	return page
}

// filled are the fields of a form as they come, but for what is typed.
func (f pageForm) filled() url.Values {
	fields := url.Values{}
	for _, part := range fieldParts.FindAllStringSubmatch(f.body, -1) {
		name, kind, value := fieldNames.FindStringSubmatch(part[2]), fieldTypes.FindStringSubmatch(part[2]), fieldValue.FindStringSubmatch(part[2])
		if name == nil || fields.Has(name[1]) {
			continue
		}
		typed := kind == nil || kind[1] == "text" || kind[1] == "search"
		switch {
		case part[1] == "select":
			fields.Set(name[1], unescaped(part[3]))
		case part[1] == "textarea", part[1] == "input" && typed:
			fields.Set(name[1], markup)
		case value != nil:
			fields.Set(name[1], unescaped(value[1]))
		default:
			fields.Set(name[1], "1")
		}
	}
	return fields
}

// FuzzForms sends anything to every form: the program answers, and makes no
// mistake.
func FuzzForms(f *testing.F) {
	d := newDoor(f, web.Guard{Shared: true})
	paths := posts(d)
	for i := range paths {
		for _, body := range []string{
			"", "from=1&text=%00&name=x&key=&once=&device=&units=in&back=%2f%2fevil.example", "from=-1&from=2&text=oddleg:+1&id=r1&section=sizes&value=1/0+in&saw=12.7",
			"from=99999999999&x=.5&y=NaN&size=%f0%9f%94%a7&say=%e2%80%ae&caption=x&made=-1&number=1&branch=2&merges=1", "text=" + strings.Repeat("{", 3000) + "&from=1",
		} {
			f.Add(uint8(i), "x", body)
		}
	}
	f.Fuzz(func(t *testing.T, which uint8, place, body string) {
		d.t = t
		path := filled(d, paths[int(which)%len(paths)], place)
		kind := "application/x-www-form-urlencoded"
		if strings.HasPrefix(body, "--b\r\n") {
			kind = "multipart/form-data; boundary=b"
		}
		d.log.Reset()
		answer := d.ask(http.MethodPost, path, kind, strings.NewReader(body))
		if answer.StatusCode == http.StatusInternalServerError || d.log.Len() > 0 {
			t.Errorf("%s: %d, %s", path, answer.StatusCode, d.log)
		}
		if to := answer.Header.Get("Location"); to != "" && (!strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//")) {
			t.Errorf("%s leads to %s", path, to)
		}
	})
}
