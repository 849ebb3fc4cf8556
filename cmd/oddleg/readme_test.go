package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
)

// TestReadmeShowsRealOutput runs every command whose output the README prints:
// each of its plain blocks must be what the program says today.
func TestReadmeShowsRealOutput(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after the other: nothing for the race detector")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	for _, job := range examples.Jobs() {
		verbs := []string{"sizes", "next", "fit", "check"}
		if bytes.Contains(job.Source, []byte("\nsurveys:")) {
			verbs = append(verbs, "upkeep")
		}
		for _, verb := range verbs {
			said.WriteString(output(t, []string{verb, "../../examples/" + job.Name}))
		}
	}
	shown := 0
	for i, block := range strings.Split(string(readme), "```") {
		text, plain := strings.CutPrefix(block, "\n") // no language behind the fence
		if i%2 == 0 || !plain || strings.HasPrefix(text, "go run") {
			continue
		}
		shown++
		if !strings.Contains(said.String(), text) {
			t.Errorf("the README shows what the program does not say:\n%s", text)
		}
	}
	if shown < 3 {
		t.Errorf("only %d blocks of output found in the README", shown)
	}
	if !strings.Contains(string(readme), strings.TrimSpace(string(examples.Jobs()[0].Source))) {
		t.Error("the README does not show the first example as it is")
	}
}

// output returns what a command line prints.
func output(t *testing.T, args []string) string {
	t.Helper()
	var out, complain bytes.Buffer
	if status := run(args, streams{in: strings.NewReader(""), out: &out, complain: &complain}); status != done {
		t.Fatalf("oddleg %s: status %d: %s", strings.Join(args, " "), status, &complain)
	}
	return out.String()
}
