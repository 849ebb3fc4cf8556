package web_test

import (
	"bytes"
	"context"
	"errors"
	"html"
	"io"
	"log/slog"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
)

// counter is the page of a shop with the examples in its record, asked from the
// computer that it runs on.
type counter struct {
	t     *testing.T
	bench web.Config
	page  http.Handler
}

func newCounter(t *testing.T) *counter {
	t.Helper()
	kept, err := examplesKept()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shop.db")
	if err := os.WriteFile(path, kept, 0o600); err != nil {
		t.Fatal(err)
	}
	shop, err := store.Make(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := shop.Close(); err != nil {
			t.Error(err)
		}
	})
	config := web.Config{Record: shop, Now: time.Now, Log: slog.New(slog.DiscardHandler)}
	return &counter{t, config, web.New(config, web.Guard{})}
}

// examplesKept is a record with the examples in it, which takes a while to make.
var examplesKept = sync.OnceValues(func() ([]byte, error) {
	folder, err := os.MkdirTemp("", "oddleg")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "shop.db")
	shop, err := store.Make(path)
	if err != nil {
		return nil, err
	}
	err = web.Begin(context.Background(), web.Config{Record: shop, Now: time.Now, Log: slog.New(slog.DiscardHandler)})
	if err := errors.Join(err, shop.Close()); err != nil {
		return nil, err
	}
	return os.ReadFile(path)
})

// ask sends a request and returns its answer, which must have this status.
func (c *counter) ask(r *http.Request, status int) *httptest.ResponseRecorder {
	c.t.Helper()
	r.Host, r.RemoteAddr = "127.0.0.1:7465", "127.0.0.1:40000"
	w := httptest.NewRecorder()
	c.page.ServeHTTP(w, r)
	if w.Code != status {
		c.t.Fatalf("%s %s: status %d, want %d: %.2000s", r.Method, r.URL, w.Code, status, w.Body)
	}
	return w
}

// see returns a page as it is read.
func (c *counter) see(path string) string {
	c.t.Helper()
	return html.UnescapeString(c.ask(httptest.NewRequest("GET", path, nil), http.StatusOK).Body.String())
}

// send posts a form, and returns where it leads.
func (c *counter) send(path string, fields ...string) string {
	c.t.Helper()
	return c.ask(form(path, fields...), http.StatusSeeOther).Header().Get("Location")
}

// refused posts a form that something is wrong with, and returns the page.
func (c *counter) refused(path string, fields ...string) string {
	c.t.Helper()
	return html.UnescapeString(c.ask(form(path, fields...), http.StatusUnprocessableEntity).Body.String())
}

// form is a form of names and values by turns.
func form(path string, fields ...string) *http.Request {
	values := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		values.Add(fields[i], fields[i+1])
	}
	r := httptest.NewRequest("POST", path, strings.NewReader(values.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return r
}

// upload is a form with one file in it.
func upload(t *testing.T, path, once, name string, data []byte) *http.Request {
	t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	field, err := w.CreateFormField("once")
	if err == nil {
		_, err = io.WriteString(field, once)
	}
	if err != nil {
		t.Fatal(err)
	}
	file, err := w.CreateFormFile("file", name)
	if err == nil {
		_, err = file.Write(data)
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest("POST", path, &b)
	r.Header.Set("Content-Type", w.FormDataContentType())
	return r
}

// job returns the job with this in its name.
func (c *counter) job(name string) record.Job {
	c.t.Helper()
	job, err := c.bench.Record.Job(context.Background(), name)
	if err != nil {
		c.t.Fatal(err)
	}
	return job
}

// source returns the text of a job.
func (c *counter) source(job record.Job) string {
	c.t.Helper()
	source, err := c.bench.Record.Source(context.Background(), job.ID, job.Revision)
	if err != nil {
		c.t.Fatal(err)
	}
	return string(source)
}

// has tells of words that are not on a page.
func has(t *testing.T, page string, words ...string) {
	t.Helper()
	for _, word := range words {
		if !strings.Contains(page, word) {
			t.Errorf("%q is not on the page: %.3000s", word, page)
		}
	}
}

// hasNot tells of words that are on a page and should not be.
func hasNot(t *testing.T, page string, words ...string) {
	t.Helper()
	for _, word := range words {
		if strings.Contains(page, word) {
			t.Errorf("%q is on the page", word)
		}
	}
}

// hidden returns the value of the first hidden field of a page with this name.
func hidden(t *testing.T, page, name string) string {
	t.Helper()
	found := regexp.MustCompile(`name="` + regexp.QuoteMeta(name) + `" value="([^"]*)"`).FindStringSubmatch(page)
	if found == nil {
		t.Fatalf("the page has no field %s", name)
	}
	return found[1]
}
