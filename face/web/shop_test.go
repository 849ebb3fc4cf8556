package web_test

import (
	"archive/zip"
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestNewJob(t *testing.T) {
	c := newCounter(t)
	id := hidden(t, c.see("/new"), "once")
	page := c.refused("/new", "once", id, "what", "planer", "built", "about 1920", "country", "GB", "units", "in")
	has(t, page, "A name is wanted", "A year is wanted", `value="planer"`, `value="about 1920"`, id, `value="in" checked`)
	for range 2 { // no answer came, and it was sent again
		if to := c.send("/new", "once", id, "name", "Cross rail gib", "what", "planer", "built", "1921", "country", "GB", "units", "in"); to != "/job/"+id+"/readings" {
			t.Errorf("it leads to %s", to)
		}
	}
	job := c.job("Cross rail gib")
	if job.ID != id || job.Revision != 1 || job.Machine.Built != 1921 {
		t.Errorf("the job is %+v", job)
	}
	known := hidden(t, c.see("/new"), "once")
	c.send("/new", "once", known, "name", "Feed screw", "known", "planer, built 1921, GB")
	if got := c.job("Feed screw").Machine; got != job.Machine {
		t.Errorf("the machine is %+v", got)
	}
	c.refused("/new", "once", "../../x", "name", "Nothing")
	has(t, c.refused("/new", "once", "ABCDEF", "name", "a bell \x07 rings"), `action="/new"`)
	c.see("/job/" + id + "/readings")
}

func TestPutAway(t *testing.T) {
	c := newCounter(t)
	has(t, c.see("/"), "Index plunger and its bush", "example")
	c.send("/put-away/examples")
	page := c.see("/")
	hasNot(t, page, "Index plunger and its bush", "Put the examples away")
	has(t, page, "There is no job here yet")
	job := c.job("Index plunger and its bush")
	has(t, c.see("/put-away"), job.Name)
	c.send("/job/"+job.ID+"/away", "away", "no")
	has(t, c.see("/"), job.Name)
}

func TestLike(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	_, form, _ := strings.Cut(c.see("/job/"+job.ID+"/record"), `action="/job/`+job.ID+`/like"`)
	id := hidden(t, form, "once")
	for range 2 {
		c.send("/job/"+job.ID+"/like", "once", id, "name", "The second plunger")
	}
	like := c.job("The second plunger")
	has(t, c.source(like), "The second plunger", "roll6")
	hasNot(t, c.source(like), "saw: [")
	if like.Machine != job.Machine || like.Revision != 1 || like.Example {
		t.Errorf("the job like it is %+v", like)
	}
	c.refused("/job/"+job.ID+"/like", "once", id, "name", " ")
}

// TestTakeIn brings in what was sent out, and what nobody should have sent.
func TestTakeIn(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	parcel := c.ask(httptest.NewRequest("GET", "/job/"+job.ID+"/parcel.zip", nil), http.StatusOK)
	if got := parcel.Header().Get("Content-Disposition"); got != "attachment; filename=Index-plunger-and-its-bush.zip" {
		t.Errorf("the parcel is called %s", got)
	}
	source := c.ask(httptest.NewRequest("GET", "/job/"+job.ID+"/job.yaml", nil), http.StatusOK).Body.Bytes()
	copied := c.ask(httptest.NewRequest("GET", "/shop.db", nil), http.StatusOK).Body.Bytes()
	var empty bytes.Buffer
	if err := zip.NewWriter(&empty).Close(); err != nil {
		t.Fatal(err)
	}
	other := newCounter(t)
	for range 2 {
		other.ask(upload(t, "/take-in", "ABCDEF", "parcel.zip", parcel.Body.Bytes()), http.StatusSeeOther)
		other.ask(upload(t, "/take-in", "BCDEFG", "plunger.yaml", source), http.StatusSeeOther)
	}
	for _, id := range []string{job.ID, "BCDEFG"} {
		if there, err := other.bench.Record.Job(context.Background(), id); err != nil || there.Revision != 1 || there.Name != job.Name {
			t.Errorf("%s: %+v, %v", id, there, err)
		}
	}
	for _, wrong := range []struct {
		name string
		data []byte
		says string
	}{
		{"half.zip", parcel.Body.Bytes()[:200], "no zip file"},
		{"none.zip", empty.Bytes(), "no parcel of a job"},
		{"shop.db", copied, "a copy of a whole shop"},
		{"job.yaml", []byte("oddleg: 1\njob: x\nbogus: 1\n"), "bogus"},
		{"note.yaml", []byte("caf\xe9"), "UTF-8"},
		{"none.yaml", nil, "oddleg"},
	} {
		page := other.ask(upload(t, "/take-in", "CDEFGH", wrong.name, wrong.data), http.StatusUnprocessableEntity).Body.String()
		has(t, page, wrong.says, "CDEFGH")
	}
	has(t, other.refused("/take-in", "once", "CDEFGH"), "choose a file first")
}
