package oddleg_test

import (
	"go/ast"
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

// names are those of the entries of a catalogue, which nobody else compares,
// switches on or makes a table of: what is known of an entry stands in it.
type names struct {
	what  string
	kinds []string // types whose constants they are: "make/strength.Mode"
	home  []string // files, or folders, in which the entries stand
	holds []string // fields that hold such a name, for texts they are compared with
}

var catalogues = []names{
	{
		what:  "way of giving",
		kinds: []string{"make/strength.Mode", "make/strength.Piece"},
		holds: []string{"Mode", "Piece"},
	},
	{
		what:  "survey",
		kinds: []string{"read/survey.trade.SurveyKind"},
		holds: []string{"Kind", "Name", "Title"},
	},
	{
		what:  "kind of part",
		kinds: []string{"job/trade.PartKind"},
		home:  []string{"job/trade/", "job/keys/", "make/part/", "file/jobfile/shapes.go", "read/sound/part.go", "testdata/"},
		holds: []string{"Kind"},
	},
}

// TestNobodySwitchesOnAnEntry: what is known of a way of giving, a survey, a kind of
// part or a feature stands in its entry, and nobody else asks which one it is.
func TestNobodySwitchesOnAnEntry(t *testing.T) {
	for _, c := range catalogues {
		words := c.constants(t)
		files := 0
		err := filepath.WalkDir(".", func(file string, entry fs.DirEntry, err error) error {
			file = filepath.ToSlash(file)
			if err != nil || entry.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") ||
				slices.ContainsFunc(c.home, func(home string) bool { return strings.HasPrefix(file, home) }) {
				return err
			}
			files++
			tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
			if err != nil {
				return err
			}
			for _, found := range c.switched(tree, words, path.Dir(file)) {
				t.Errorf("%s knows the %s %s: make it a field of the entry", file, c.what, found)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if files < 100 || len(words) < 3 {
			t.Fatalf("%s: only %d files and %d names found: the test looks in the wrong place", c.what, files, len(words))
		}
	}
}

// constant is a name of an entry as Go has it.
type constant struct {
	room, name, text string
}

// constants reads the constants of the kinds from their rooms.
func (c *names) constants(t *testing.T) []constant {
	t.Helper()
	var list []constant
	for _, kind := range c.kinds {
		room, typ := path.Split(kind)
		base, typ, _ := strings.Cut(typ, ".")
		room = path.Join(room, base)
		files, err := filepath.Glob(room + "/*.go")
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, constantsOf(tree, room, typ)...)
		}
	}
	return list
}

// constantsOf returns the constants of a type that a file declares, those without a
// word left out.
func constantsOf(tree *ast.File, room, typ string) []constant {
	var list []constant
	for _, d := range tree.Decls {
		decl, ok := d.(*ast.GenDecl)
		if !ok || decl.Tok != token.CONST {
			continue
		}
		for _, s := range decl.Specs {
			spec := s.(*ast.ValueSpec)
			if spec.Type == nil || name(spec.Type) != typ || len(spec.Values) != len(spec.Names) {
				continue
			}
			for i, n := range spec.Names {
				if text, ok := literal(spec.Values[i]); ok && text != "" {
					list = append(list, constant{room, n.Name, text})
				}
			}
		}
	}
	return list
}

func literal(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(lit.Value)
	return text, err == nil
}

// switched returns the names that a file of a room compares, switches on, or has as
// the keys of a table.
func (c *names) switched(tree *ast.File, words []constant, room string) []string {
	var list []string
	one := func(e ast.Expr) {
		if word, ok := constantIn(e, words, room); ok {
			list = append(list, word)
		}
	}
	text := func(of, e ast.Expr) {
		if word, ok := literal(e); ok && c.held(of) && slices.ContainsFunc(words, func(c constant) bool { return c.text == word }) {
			list = append(list, word)
		}
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				one(n.X)
				one(n.Y)
				text(n.X, n.Y)
				text(n.Y, n.X)
			}
		case *ast.SwitchStmt:
			for _, clause := range n.Body.List {
				for _, e := range clause.(*ast.CaseClause).List {
					one(e)
					text(n.Tag, e)
				}
			}
		case *ast.CompositeLit:
			for _, e := range n.Elts {
				if pair, ok := e.(*ast.KeyValueExpr); ok {
					e = pair.Key
					if _, ofMap := n.Type.(*ast.MapType); !ofMap {
						continue // the key is a field
					}
				}
				one(e)
			}
		}
		return true
	})
	return list
}

// held reports whether an expression is a field that holds a name.
func (c *names) held(e ast.Expr) bool {
	return slices.ContainsFunc(c.holds, func(field string) bool { return strings.HasSuffix(name(e), "."+field) })
}

// constantIn returns the constant that an expression is, converted to a text or not.
func constantIn(e ast.Expr, words []constant, room string) (string, bool) {
	if call, ok := e.(*ast.CallExpr); ok && len(call.Args) == 1 {
		return constantIn(call.Args[0], words, room)
	}
	n := name(e)
	i := slices.IndexFunc(words, func(c constant) bool {
		return n == path.Base(c.room)+"."+c.name || c.room == room && n == c.name
	})
	return n, i >= 0
}

// TestSwitchedIsFound plants what must not stand outside a catalogue.
func TestSwitchedIsFound(t *testing.T) {
	c := names{holds: []string{"Mode"}}
	words := []constant{{"make/strength", "Breaks", "breaks"}, {"make/strength", "Strips", "strips"}}
	for code, want := range map[string]int{
		`func f() bool { return w.Mode == strength.Breaks }`:               1,
		`func f() bool { return w.Mode != "breaks" }`:                      1,
		`func f() bool { return w.Word == "breaks" }`:                      0,
		`func f() { switch m { case strength.Breaks, strength.Strips: } }`: 2,
		`func f() { switch w.Mode { case "strips": } }`:                    1,
		`var a = map[strength.Mode]int{strength.Breaks: 1}`:                1,
		`var a = []strength.Mode{strength.Breaks}`:                         1,
		`var a = strength.Way{Mode: strength.Breaks}`:                      0,
		`func f() bool { return string(strength.Breaks) == word }`:         1,
		`func f() bool { return m == Breaks }`:                             0,
	} {
		tree, err := parser.ParseFile(token.NewFileSet(), "planted.go", "package planted\n"+code, 0)
		if err != nil {
			t.Fatal(err)
		}
		if found := c.switched(tree, words, "planted"); len(found) != want {
			t.Errorf("%s: found %q, want %d", code, found, want)
		}
	}
	tree, err := parser.ParseFile(token.NewFileSet(), "planted.go", "package planted\nconst A, B Mode = \"a\", \"b\"\nconst None Mode = \"\"\nconst C Other = \"c\"", 0)
	if err != nil {
		t.Fatal(err)
	}
	if found := constantsOf(tree, "planted", "Mode"); !slices.Equal(found, []constant{{"planted", "A", "a"}, {"planted", "B", "b"}}) {
		t.Errorf("found %v", found)
	}
}
