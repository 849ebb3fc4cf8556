package jobfile

import (
	"errors"
	"go/ast"
	goparser "go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// TestExamplesOfTheDescription: the examples of all sections are one job that is
// read without fault, and so is each example of part of a section.
func TestExamplesOfTheDescription(t *testing.T) {
	for name, source := range keys.File().Examples() {
		if _, err := Read("", []byte(source)); err != nil {
			t.Errorf("the example %s:\n%v\n%s", name, err, source)
		}
	}
}

// TestEveryKeyIsRead reads every job there is and the examples of the description:
// each key that is described must be written in one and be asked for by the reader.
// One that is asked for and not described is a bug, which ends the reader.
func TestEveryKeyIsRead(t *testing.T) {
	read := map[string]bool{}
	for _, source := range everyJob(t) {
		r := newReader(keys.File(), true)
		r.asked = func(e *keys.Entry, key string) { read[e.Name+"."+key] = true }
		if _, err := r.read([]byte(source)); err != nil {
			t.Fatalf("%v\n%s", err, source)
		}
	}
	count := 0
	for _, e := range keys.File().Described() {
		for _, name := range e.Names() {
			if count++; !read[e.Name+"."+name] {
				t.Errorf("%s.%s is described and never read", e.Name, name)
			}
		}
	}
	if count < 250 {
		t.Errorf("only %d keys are described", count)
	}
}

// everyJob returns the texts of all jobs of the tests and the examples.
func everyJob(t *testing.T) []string {
	t.Helper()
	var sources []string
	for _, pattern := range []string{"../../testdata/jobs/*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal(pattern, err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			sources = append(sources, string(source))
		}
	}
	for _, source := range keys.File().Examples() {
		sources = append(sources, source)
	}
	return sources
}

// asking are the ways in which the reader asks for a key by its name.
var asking = []string{
	"text", "whole", "yes", "quantity", "number", "span", "measure", "place", "pair", "quantityIn", "quantityWithin",
	"among", "entries", "list", "inner", "item", "below", "has", "at", "need", "got", "threadMade", "counts", "bound", "which",
}

// TestNoKeyIsReadUndescribed looks for names of keys in the code of the reader, run
// or not.
func TestNoKeyIsReadUndescribed(t *testing.T) {
	var described []string
	for _, e := range keys.File().Walk() {
		described = append(described, e.Names()...)
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || strings.HasPrefix(file, "edit") {
			continue
		}
		parsed, err := goparser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range namesAskedFor(parsed) {
			if found++; !slices.Contains(described, name) {
				t.Errorf("%s reads the key %q, which is not described", file, name)
			}
		}
	}
	if found < 200 {
		t.Errorf("only %d names of keys were found in the reader", found)
	}
}

// namesAskedFor returns the texts that a file gives to what asks for keys.
func namesAskedFor(file *ast.File) []string {
	var names []string
	ast.Inspect(file, func(n ast.Node) bool {
		call, is := n.(*ast.CallExpr)
		if !is || !slices.Contains(asking, calledName(call.Fun)) {
			return true
		}
		args := call.Args
		if calledName(call.Fun) == "item" {
			args = args[:1] // what it is called in faults comes last
		}
		for _, arg := range args {
			if text, is := arg.(*ast.BasicLit); is && text.Kind == token.STRING {
				name, _ := strconv.Unquote(text.Value)
				names = append(names, name)
			}
		}
		return true
	})
	return names
}

func calledName(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.SelectorExpr:
		return f.Sel.Name
	case *ast.IndexExpr:
		return calledName(f.X)
	case *ast.Ident:
		return f.Name
	}
	return ""
}

// TestNewKeyIsOneEntry puts a key into the description and nowhere else: the reader
// then takes it, says what it may hold, and guesses it where it is spelt wrongly.
func TestNewKeyIsOneEntry(t *testing.T) {
	file := keys.New()
	sizes := file.Find("sizes")
	sizes.Keys = append(sizes.Keys, keys.Key{
		Name: "hardness", Holds: keys.Holds{Kind: keys.Whole, Least: 20, Most: 70}, Says: "Hardness.", Example: "58",
	})
	with := func(entry string) string { return head + "sizes:\n  a: {kind: width, " + entry + "}\n" }
	for source, want := range map[string]string{
		with("hardness: 58"):     "",
		with("hardness: 80"):     "4:30: hardness in size \"a\": found \"80\" where a whole number from 20 to 70 should be",
		with("hardnes: 58"):      "4:20: size \"a\": unknown key \"hardnes\"; did you mean \"hardness\"?",
		with("hardness: [1, 2]"): "4:30: hardness in size \"a\": found a list where a text should be",
	} {
		_, err := newReader(file, false).read([]byte(source))
		if got := said(err); got != want {
			t.Errorf("%s%s\nwant %s", source, got, want)
		}
		if _, err := Read("", []byte(source)); err == nil {
			t.Errorf("without the entry this is read:\n%s", source)
		}
	}
	if !strings.Contains(string(file.Schema()), `"hardness"`) || strings.Contains(string(keys.File().Schema()), `"hardness"`) {
		t.Error("the schema does not follow the description")
	}
}

func said(err error) string {
	var faults trade.Faults
	if errors.As(err, &faults) {
		return faults.Error()
	}
	return ""
}

// TestHandbookExamples reads the examples of the page docs/job-file.md as they
// stand there: those of the sections are the examples of the description.
func TestHandbookExamples(t *testing.T) {
	page, err := os.ReadFile("../../docs/job-file.md")
	if err != nil {
		t.Fatal(err)
	}
	parts := strings.Split(string(page), "```yaml\n")[1:]
	whole := keys.File().Example
	for _, p := range parts {
		source, _, _ := strings.Cut(p, "```")
		if !strings.HasPrefix(source, "oddleg:") {
			whole += source // a section, of one job together with the others
			continue
		}
		if _, err := Read("", []byte(source)); err != nil {
			t.Errorf("%v\n%s", err, source)
		}
	}
	if _, err := Read("", []byte(whole)); err != nil || len(parts) < 25 {
		t.Errorf("%d examples: %v", len(parts), err)
	}
}
