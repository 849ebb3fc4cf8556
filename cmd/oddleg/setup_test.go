package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestEveryPartIsSetUpFor: of every part of the test jobs, which list no shop, the
// page and the JSON say something, and show no number that is none.
func TestEveryPartIsSetUpFor(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	if testing.Short() {
		files = files[:3]
	}
	none := regexp.MustCompile(`NaN|Inf|(^|[^\w])\? `)
	for _, file := range files {
		var page, object, complaints bytes.Buffer
		if status := run([]string{"setup", file}, streams{out: &page, complain: &complaints}); status != done {
			t.Fatalf("%s: status %d: %s", file, status, &complaints)
		}
		if text := page.String(); none.MatchString(text) || !strings.Contains(text, "Stock") || !strings.Contains(text, "Never leave the key in the chuck") {
			t.Errorf("%s:\n%s", file, text)
		}
		if status := run([]string{"setup", "--json", file}, streams{out: &object, complain: &complaints}); status != done || !json.Valid(object.Bytes()) {
			t.Errorf("%s: status %d: %s\n%s", file, status, &complaints, &object)
		}
	}
}
