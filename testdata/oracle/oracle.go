// Package oracle asks independent programs for the figures, texts and marks that
// tests hold this program to. The Python programs beside it were written from the
// descriptions alone.
//
// A program that is missing ends the test: as a skip on a bare machine, as a
// failure under CI=true, where all of them are there. One that fails ends it with
// what it complained of.
package oracle

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Program is an independent program that is there.
type Program struct {
	path      string
	arguments []string // that come first
}

// python is Debian's own: another may come first on the path.
const python = "/usr/bin/python3"

// Python returns Debian's Python, with these modules to import. The script comes
// first among its arguments.
func Python(t testing.TB, modules ...string) Program {
	t.Helper()
	packages := []string{"python3"}
	for _, module := range modules {
		packages = append(packages, "python3-"+module)
	}
	if exec.Command(python, "-c", "import "+strings.Join(append(modules, "json"), ", ")).Run() != nil {
		missing(t, packages...)
	}
	return Program{python, []string{"-B"}} // no __pycache__ beside the scripts
}

// Find returns the program of this name, which a package of Debian's has.
func Find(t testing.TB, name, debian string) Program {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		missing(t, debian)
	}
	return Program{path: path}
}

// missing ends a test for want of packages of Debian's.
func missing(t testing.TB, packages ...string) {
	t.Helper()
	text := "needs what is independent of it: apt-get install " + strings.Join(packages, " ")
	if os.Getenv("CI") == "true" {
		t.Fatal(text)
	}
	t.Skip(text)
}

// Path is where the program is, for tests that start it themselves.
func (p Program) Path() string { return p.path }

// Output gives a program something to read, and returns what it writes.
func (p Program) Output(t testing.TB, input []byte, arguments ...string) []byte {
	t.Helper()
	command := exec.Command(p.path, append(p.arguments, arguments...)...)
	var complaint bytes.Buffer
	command.Stdin, command.Stderr = bytes.NewReader(input), &complaint
	output, err := command.Output()
	if err != nil {
		t.Fatalf("%s %.200q: %v\n%s%s", p.path, arguments, err, output, complaint.String())
	}
	return output
}

// Answers puts questions to a program as a JSON array, and reads as many answers.
func Answers[A, Q any](t testing.TB, p Program, questions []Q, arguments ...string) []A {
	t.Helper()
	input, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	answers := Answer[[]A](t, p, input, arguments...)
	if len(answers) != len(questions) {
		t.Fatalf("%d answers to %d questions", len(answers), len(questions))
	}
	return answers
}

// Answer reads the one answer, in JSON, that a program has to what it is given.
func Answer[A any](t testing.TB, p Program, input []byte, arguments ...string) A {
	t.Helper()
	output := p.Output(t, input, arguments...)
	var answer A
	if err := json.Unmarshal(output, &answer); err != nil {
		t.Fatalf("%s says no JSON of this kind: %v\n%.2000s", p.path, err, output)
	}
	return answer
}

// Script returns the path of a script beside this package, seen from where a test
// runs: the folder of its own package.
func Script(t testing.TB, name string) string {
	t.Helper()
	for up := "."; len(up) < 100; up = filepath.Join(up, "..") {
		if _, err := os.Stat(filepath.Join(up, "go.mod")); err == nil {
			return filepath.Join(up, "testdata", "oracle", name)
		}
	}
	t.Fatal("the test runs outside of the module")
	return ""
}
