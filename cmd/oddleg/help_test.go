package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/keys"
)

// TestJobFilePageIsUpToDate holds docs/job-file.md to the description.
func TestJobFilePageIsUpToDate(t *testing.T) {
	fresh := t.TempDir()
	output(t, []string{"help", "job", "--handbook", fresh})
	compare(t, filepath.Join(fresh, "job-file.md"), "../../docs/job-file.md")
}

// TestHelpJob: the help knows every section, and the schema is one.
func TestHelpJob(t *testing.T) {
	contents := output(t, []string{"help", "job"})
	for _, name := range keys.File().Names() {
		if !strings.Contains(contents, "\n    "+name+" ") {
			t.Errorf("help job does not name %s", name)
		}
	}
	if shown := output(t, []string{"help", "job", "checks"}); !strings.Contains(shown, "at-temp") {
		t.Errorf("help job checks:\n%s", shown)
	}
	var schema map[string]any
	if err := json.Unmarshal([]byte(output(t, []string{"help", "job", "--schema"})), &schema); err != nil {
		t.Fatal(err)
	}
	if schema["$schema"] != "https://json-schema.org/draft/2020-12/schema" || schema["additionalProperties"] != false {
		t.Errorf("$schema %v, additionalProperties %v", schema["$schema"], schema["additionalProperties"])
	}
}

// TestHelpOfNoSection: what is no section is the user's fault, with a guess.
func TestHelpOfNoSection(t *testing.T) {
	for want, args := range map[string][]string{
		`the job file has no section "joint"; did you mean joints?`: {"help", "job", "joint"},
		"--schema and --handbook are of the job file":               {"help", "sizes", "--schema"},
	} {
		var out, complain bytes.Buffer
		if status := run(args, streams{out: &out, complain: &complain}); status != wrongInput || !strings.Contains(complain.String(), want) {
			t.Errorf("%v: status %d, %s", args, status, complain.String())
		}
	}
}
