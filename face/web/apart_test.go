package web

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// TestNothingDoesEverything: what answers requests is parted into pages with what
// belongs to each, and none of them, nor the desk they share, grows into all of it.
func TestNothingDoesEverything(t *testing.T) {
	const most = 30
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	methods := map[string]int{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") || strings.HasSuffix(name, "_templ.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil {
				receiver := f.Recv.List[0].Type
				if star, ok := receiver.(*ast.StarExpr); ok {
					receiver = star.X
				}
				methods[receiver.(*ast.Ident).Name]++
			}
		}
	}
	if methods["desk"] == 0 || methods["jobPages"] == 0 {
		t.Fatal("neither the desk nor its pages are found")
	}
	for name, n := range methods {
		if n > most {
			t.Errorf("%s has %d methods; what of it is a thing by itself?", name, n)
		}
	}
}
