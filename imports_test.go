package oddleg_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms says which rooms each room may import, as DESIGN.md draws them.
var rooms = func() map[string][]string {
	numbers := []string{"near", "unit", "grad", "expr", "lsq", "geom"}
	stages := []string{
		"facts", "limits", "gauge", "adjust", "simulate", "blunder", "advise", "meant", "series",
		"fit", "mating", "strength", "part", "setup", "upkeep", "inspect", "draw", "booklet", "reckon",
	}
	adapters := []string{"jobfile", "report", "paper", "solid", "store", "web"}
	allowed := map[string][]string{"": {"unit"}, "record": {""}}
	for i, room := range numbers {
		allowed[room] = numbers[:i]
	}
	inward := append([]string{""}, numbers...)
	for i, room := range stages {
		allowed[room] = append(slices.Clone(inward), stages[:i]...)
	}
	inward = append(append(inward, stages...), "record")
	for _, room := range adapters {
		allowed[room] = inward
	}
	allowed["examples"] = nil
	allowed["testdata/certified"] = nil // for tests
	allowed["testdata/parttest"] = inward
	everything := append(append(slices.Clone(inward), adapters...), "examples")
	allowed["web/proof"] = nil // for tests
	allowed["cmd/wired"] = everything
	allowed["cmd/oddleg"] = append(everything, "cmd/wired")
	allowed["bench"] = everything
	return allowed
}()

// libraries says which rooms may import which modules from outside.
var libraries = map[string][]string{
	"lsq":                {"gonum.org/v1/gonum"},
	"simulate":           {"gonum.org/v1/gonum"},
	"jobfile":            {"github.com/goccy/go-yaml"},
	"fit":                {"gonum.org/v1/gonum"},
	"mating":             {"gonum.org/v1/gonum"},
	"paper":              {"codeberg.org/go-pdf/fpdf", "codeberg.org/go-fonts/dejavu"},
	"store":              {"modernc.org/sqlite"},
	"web":                {"github.com/a-h/templ"},
	"report":             {"rsc.io/qr"},
	"cmd/oddleg":         {"github.com/alecthomas/kong"},
	"testdata/certified": {"github.com/goccy/go-yaml"},
}

// TestImports proves that imports run one way only.
func TestImports(t *testing.T) {
	files := 0
	err := filepath.WalkDir(".", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		files++
		checkImports(t, filepath.ToSlash(file))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 10 {
		t.Fatalf("only %d files found: the test looks in the wrong place", files)
	}
}

func checkImports(t *testing.T, file string) {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	if err != nil {
		t.Error(err)
		return
	}
	room := path.Dir(file)
	if room == "." {
		room = ""
	}
	allowed, known := rooms[room]
	if !known {
		t.Errorf("%s: the folder %s has no place in DESIGN.md's rooms", file, room)
	}
	for _, spec := range parsed.Imports {
		name, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Error(err)
			continue
		}
		if !mayImport(room, allowed, name) {
			t.Errorf("%s imports %s, which its room may not", file, name)
		}
	}
}

// mayImport reports whether a room may import a package.
func mayImport(room string, allowed []string, name string) bool {
	first, _, _ := strings.Cut(name, "/")
	switch {
	case name == "oddleg":
		return slices.Contains(allowed, "")
	case first == "oddleg":
		return slices.Contains(allowed, strings.TrimPrefix(name, "oddleg/"))
	case !strings.Contains(first, "."):
		return true // the standard library
	}
	return slices.ContainsFunc(libraries[room], func(module string) bool {
		return name == module || strings.HasPrefix(name, module+"/")
	})
}
