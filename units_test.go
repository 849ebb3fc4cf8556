package oddleg_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// stages are the wings and rooms that work something out. In which units somebody
// reads it is no business of theirs.
var stages = []string{"num", "tables", "job", "read", "meaning", "make", "prove", "reckon"}

// ofReaders are the names of package unit that ask for a reader's units, or write in one
// of them. inFaults are rooms that may use ShowLength all the same: a fault is told in
// the units that the job is written in.
var (
	ofReaders = []string{"View", "ThouText", "InchWithUncertainty", "FractionText", "ShowLength"}
	inFaults  = []string{"make/part", "make/lathe"}
)

// TestNoStageKnowsTheReadersUnits: a job worked out is there for all who read it, in
// millimetres and in inches.
func TestNoStageKnowsTheReadersUnits(t *testing.T) {
	files := 0
	for _, stage := range stages {
		err := filepath.WalkDir(stage, func(file string, entry fs.DirEntry, err error) error {
			room := path.Dir(filepath.ToSlash(file))
			if err != nil || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") || room == "num/unit" {
				return err
			}
			files++
			for _, name := range usedOfUnit(t, file) {
				if slices.Contains(ofReaders, name) && !(name == "ShowLength" && slices.Contains(inFaults, room)) {
					t.Errorf("%s uses unit.%s: leave an amount, a unit.Text, to who shows it", file, name)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 200 {
		t.Fatalf("only %d files found: the test looks in the wrong place", files)
	}
}

// usedOfUnit lists what a file uses of package unit.
func usedOfUnit(t *testing.T, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if of, ok := s.X.(*ast.Ident); ok && of.Name == "unit" {
				names = append(names, s.Sel.Name)
			}
		}
		return true
	})
	return names
}

// TestAJobSaysOneUnit: that of its bare numbers, and none for a reader.
func TestAJobSaysOneUnit(t *testing.T) {
	job := reflect.TypeFor[trade.Job]()
	var found []string
	for i := range job.NumField() {
		if job.Field(i).Type == reflect.TypeFor[unit.Unit]() {
			found = append(found, job.Field(i).Name)
		}
	}
	if !slices.Equal(found, []string{"Units"}) {
		t.Errorf("a job has units %q, want those of its bare numbers alone", found)
	}
}
