package web_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestShelve(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	at := "/job/" + job.ID + "/record"
	page := c.see(at)
	has(t, page, "Nothing made of this job is written down yet", at[:len(at)-len("record")]+"fit")
	once := hidden(t, page, "once")
	for range 2 {
		c.send(at, "once", once, "from", "1", "made", "3", "fitted", "1", "place", "drawer 4", "better", "bore first",
			"size.shank", "3/4", "units", "in")
	}
	has(t, c.see(at), "2 spares, drawer 4", "3 made, 1 fitted, 0 scrapped", "bore first", "3/4 in")
	entries, err := c.bench.Record.Shelf(context.Background(), job.ID)
	if err != nil || len(entries) != 1 || entries[0].Sizes[0].MM != 19.05 { // 3/4 of 25.4 mm
		t.Errorf("entries: %+v, %v", entries, err)
	}
	for _, wrong := range []struct {
		fields []string
		says   string
	}{
		{[]string{"made", "two"}, `"two"`},
		{[]string{"fitted", "5"}, "not enough"},
		{[]string{"made", "1", "size.shank", "wide"}, "shank"},
		{[]string{"made", "1", "size.shank", "-3"}, "greater than 0"},
		{nil, "Say what happened"},
	} {
		page := c.refused(at, append(wrong.fields, "material", "as typed")...)
		has(t, page, wrong.says, `value="as typed"`)
	}
	has(t, c.see("/spares"), "Index plunger", "drawer 4", "dividing table, built 1936, GB")
	for _, ending := range []string{"svg", "pdf"} {
		if c.ask(httptest.NewRequest("GET", "/job/"+job.ID+"/label."+ending, nil), http.StatusOK).Body.Len() < 1000 {
			t.Errorf("the label as %s is hardly there", ending)
		}
	}
}

// TestHistory changes a job twice, looks back, and goes back.
func TestHistory(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	at := "/job/" + job.ID
	first := c.source(job)
	for from, name := range []string{"The first name", "The second name"} {
		c.send(at+"/text", "from", fmt.Sprint(from+1), "text", strings.Replace(first, job.Name, name, 1))
	}
	has(t, c.see(at+"/record"), "3: ", "text changed by hand", "Undo this")
	has(t, c.see(at+"/as/1"), "As revision 1 had it", job.Name, "Sizes then", "Bring this back")
	has(t, c.see(at+"/compare?old=1&new=2"), "The first name", "taken out")
	day := c.bench.Now().Local().Format("2006-01-02")
	if to := c.ask(httptest.NewRequest("GET", at+"/as-on?day="+day, nil), http.StatusSeeOther).Header().Get("Location"); to != at+"/as/3" {
		t.Errorf("as on %s leads to %s", day, to)
	}
	c.ask(httptest.NewRequest("GET", at+"/as-on?day=1999-01-01", nil), http.StatusUnprocessableEntity)
	c.ask(httptest.NewRequest("GET", at+"/as/99", nil), http.StatusUnprocessableEntity)
	c.send(at+"/undo", "number", "3")
	has(t, c.source(c.job(job.ID)), "The first name")
	c.refused(at+"/undo", "number", "3") // sent again: nothing more is undone
	for range 2 {
		c.send(at+"/bring-back", "number", "1")
	}
	if now := c.job(job.ID); c.source(now) != first || now.Revision != 5 {
		t.Errorf("revision %d is current", now.Revision)
	}
}
