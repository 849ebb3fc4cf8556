package oddleg_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// everyday are ids of methods that are words of the job file too: surfaces,
// keys of shapes, kinds of survey and instrument. They are looked for only where
// a method is compared, switched on or found.
var everyday = []string{
	"outside", "inside", "depth", "touch", "root", "protractor", "pitches", "runout", "lost-motion", trade.FormulaMethod,
}

// TestNobodySwitchesOnAMethod: what is known of a gauging method, an instrument
// or a gauge piece stands in its entry in read/gauge and nowhere else. The one
// method that others know by its id is the formula, trade.FormulaMethod, whose
// reading is written in another form.
func TestNobodySwitchesOnAMethod(t *testing.T) {
	files := 0
	err := filepath.WalkDir(".", func(file string, entry fs.DirEntry, err error) error {
		file = filepath.ToSlash(file)
		if err != nil || entry.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") ||
			strings.HasPrefix(file, "read/gauge/") || strings.HasPrefix(file, "job/trade/") {
			return err
		}
		files++
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			return err
		}
		for _, found := range known(tree) {
			t.Errorf("%s knows %s: make it a field of the entry in read/gauge", file, found)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 10 {
		t.Fatalf("only %d files found: the test looks in the wrong place", files)
	}
}

// TestKnownIsFound plants what must not stand outside the catalogue.
func TestKnownIsFound(t *testing.T) {
	for code, want := range map[string]int{
		`var a = map[string]int{"over-two-pins": 2}`:                1,
		`var a = "for instance by ` + "\\x60three-wires\\x60" + `"`: 1,
		`func f() { if r.By == "depth" { } }`:                       1,
		`func f() { switch m.ID { case "inside", "outside": } }`:    2,
		`func f() { gauge.Find("root") }`:                           1,
		`func f() { hint("outside", "size") }`:                      0,
		`var keys = []string{"outside", "inside", "depth"}`:         0,
		`func f() bool { return i.Kind == trade.Caliper }`:          1,
		`func f() { switch k { case trade.Ball: } }`:                1,
		`var a = map[trade.PieceKind]int{trade.Pin: 1}`:             1,
		`var a = []trade.InstrumentKind{trade.Dial, trade.Rule}`:    2,
		`var a = trade.Instrument{Kind: trade.OtherInstrument}`:     0,
		`func f() bool { return size.Kind == trade.Diameter }`:      0,
	} {
		tree, err := parser.ParseFile(token.NewFileSet(), "planted.go", "package planted\n"+code, 0)
		if err != nil {
			t.Fatal(err)
		}
		if found := known(tree); len(found) != want {
			t.Errorf("%s: found %q, want %d", code, found, want)
		}
	}
}

// known returns what a file knows of a method, an instrument or a piece by its
// name.
func known(tree *ast.File) []string {
	var list []string
	add := func(list []string, of ast.Expr, everydayToo bool) []string {
		if id, ok := methodIn(of, everydayToo); ok {
			return append(list, "the method "+id)
		}
		return list
	}
	kinds := func(where ...ast.Expr) {
		for _, e := range where {
			if kind, ok := kindIn(e); ok {
				list = append(list, "the kind "+kind)
			}
		}
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			list = add(list, n, false)
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				kinds(n.X, n.Y)
				for _, sides := range [][2]ast.Expr{{n.X, n.Y}, {n.Y, n.X}} {
					if asksForMethod(sides[0]) {
						list = add(list, sides[1], true)
					}
				}
			}
		case *ast.SwitchStmt:
			for _, c := range n.Body.List {
				for _, e := range c.(*ast.CaseClause).List {
					if kinds(e); asksForMethod(n.Tag) {
						list = add(list, e, true)
					}
				}
			}
		case *ast.CallExpr:
			if strings.HasSuffix(name(n.Fun), "Find") {
				for _, e := range n.Args {
					list = add(list, e, true)
				}
			}
		case *ast.CompositeLit:
			for _, e := range n.Elts {
				if pair, ok := e.(*ast.KeyValueExpr); ok {
					e = pair.Key
				}
				kinds(e)
			}
		}
		return true
	})
	return list
}

// methodIn returns the method that a text names: as the whole of it, or in
// backquotes.
func methodIn(e ast.Expr, everydayToo bool) (string, bool) {
	literal, ok := e.(*ast.BasicLit)
	if !ok || literal.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(literal.Value)
	if err != nil {
		return "", false
	}
	for _, m := range gauge.Methods() {
		plain := slices.Contains(everyday, m.ID)
		switch {
		case text == m.ID && plain == everydayToo, !everydayToo && strings.Contains(text, "`"+m.ID+"`"):
			return m.ID, true
		}
	}
	return "", false
}

// asksForMethod reports whether an expression is the method of a reading or the
// id of a method.
func asksForMethod(e ast.Expr) bool {
	n := name(e)
	return strings.HasSuffix(n, ".By") || strings.HasSuffix(n, "ethod.ID") || n == "m.ID"
}

func name(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return name(e.X) + "." + e.Sel.Name
	case *ast.CallExpr:
		return name(e.Fun) + "()"
	}
	return ""
}

// kindIn returns the kind of instrument or gauge piece that an expression is.
func kindIn(e ast.Expr) (string, bool) {
	if call, ok := e.(*ast.CallExpr); ok && len(call.Args) == 1 { // string(trade.Caliper)
		return kindIn(call.Args[0])
	}
	var words []string
	for _, kind := range gauge.InstrumentKinds() {
		words = append(words, string(kind))
	}
	for _, kind := range gauge.PieceKinds() {
		words = append(words, string(kind))
	}
	n := name(e)
	if slices.Contains(words, kindWord(n)) && strings.HasPrefix(n, "trade.") {
		return n, true
	}
	return "", false
}

// kindWord turns the name of a constant into the word that it has in a job
// file: trade.DepthMicrometer into depth-micrometer.
func kindWord(constant string) string {
	var b strings.Builder
	for i, r := range strings.TrimPrefix(constant, "trade.") {
		if i > 0 && 'A' <= r && r <= 'Z' {
			b.WriteByte('-')
		}
		fmt.Fprintf(&b, "%s", strings.ToLower(string(r)))
	}
	return b.String()
}
