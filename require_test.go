package oddleg_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// elsewhere is a program of another module that works a job.
const elsewhere = `package main

import (
	"context"
	"fmt"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/reckon"
)

const job = "{oddleg: 1, job: A pin, kit: {mic: {kind: micrometer, zero: 0.003, repeat: 0.004}}, " +
	"sizes: {pin: {kind: diameter}}, readings: [{id: a, by: outside, of: {size: pin}, with: mic, saw: 6.02}]}"

func main() {
	read, err := jobfile.Read("a.yaml", []byte(job))
	if err != nil {
		panic(err)
	}
	found, err := reckon.Job(context.Background(), read, 1)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.3f %.3f", found.Result.Sizes[0].Value, found.Result.Sizes[0].U)
}
`

// TestAnotherModuleCanRequireThis builds and runs a program of another module, which
// finds this one by a replace and all that it needs among what was fetched before.
func TestAnotherModuleCanRequireThis(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds a program")
	}
	here, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	sums, err := os.ReadFile("go.sum")
	if err != nil {
		t.Fatal(err)
	}
	write("go.sum", string(sums))
	write("main.go", elsewhere)
	write("go.mod",
		"module example.org/elsewhere\n\ngo 1.26\n\nrequire "+module+" v0.0.0\n\nreplace "+module+" => "+here+"\n")
	run := exec.Command("go", "run", ".")
	run.Dir = folder
	run.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOPROXY=off", "GOWORK=off")
	said, err := run.CombinedOutput()
	if want := "6.020 0.005"; err != nil || strings.TrimSpace(string(said)) != want { // √(3² + 4²) = 5 µm, by hand
		t.Errorf("%v: %s\nwant %s", err, said, want)
	}
}
