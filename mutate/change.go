package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strconv"
	"strings"
)

// change is one small change of one file: the bytes from start to end become
// others.
type change struct {
	file        string
	start, end  int
	row, column int
	was, is     string
	line        string // of code, as it stands
	source      []byte
	number      int       // in its room, from 1
	function    *function // in which it stands, nil for a constant of the package and its like
}

// function is the body of one function that stands in no other: the bytes from
// start to end, with its braces.
type function struct{ start, end int }

func (c *change) place() string { return fmt.Sprintf("%s:%d:%d", c.file, c.row, c.column) }

// changed returns the bytes of the file from one place to another, with the
// change in them.
func (c *change) changed(from, to int) string {
	return string(c.source[from:c.start]) + c.is + string(c.source[c.end:to])
}

// operators are what one is mistaken for.
var operators = map[token.Token]string{
	token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*",
	token.LSS: ">", token.GTR: "<", token.LEQ: "<", token.GEQ: ">",
	token.EQL: "!=", token.NEQ: "==", token.LAND: "||", token.LOR: "&&",
	token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.MUL_ASSIGN: "/=", token.QUO_ASSIGN: "*=",
}

// functions are what one is mistaken for.
var functions = map[string]string{
	"Sin": "Cos", "Cos": "Sin", "Min": "Max", "Max": "Min", "min": "max", "max": "min",
	"Floor": "Ceil", "Ceil": "Floor", "Plus": "Minus", "Minus": "Plus", "Add": "Sub", "Sub": "Add", "Times": "Over", "Over": "Times",
}

// changesOf lists every change of a file.
func changesOf(file string) ([]change, error) {
	source, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, file, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	l := &lister{files: files, source: source, file: file}
	ast.Inspect(tree, l.visit)
	bodies := l.functions(tree)
	for i := range l.list {
		c := &l.list[i]
		if at := slices.IndexFunc(bodies, func(f *function) bool { return f.start < c.start && c.end < f.end }); at >= 0 {
			c.function = bodies[at]
		}
	}
	return l.list, nil
}

// functions finds the functions of a file that stand in no other. One with a
// label is left out: its body cannot stand twice in one function.
func (l *lister) functions(tree *ast.File) []*function {
	var list []*function
	ast.Inspect(tree, func(n ast.Node) bool {
		var body *ast.BlockStmt
		switch n := n.(type) {
		case *ast.FuncDecl:
			body = n.Body
		case *ast.FuncLit:
			body = n.Body
		}
		if body == nil {
			return true
		}
		if !hasLabel(body) {
			list = append(list, &function{l.files.Position(body.Lbrace).Offset, l.files.Position(body.Rbrace).Offset + 1})
		}
		return false
	})
	return list
}

func hasLabel(body ast.Node) bool {
	found := false
	ast.Inspect(body, func(n ast.Node) bool {
		_, is := n.(*ast.LabeledStmt)
		found = found || is
		return !found
	})
	return found
}

// lister gathers the changes of a file.
type lister struct {
	files  *token.FileSet
	source []byte
	file   string
	list   []change
}

func (l *lister) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return false
	case *ast.BinaryExpr:
		if is := operators[n.Op]; is != "" && !joinsWords(n) {
			l.add(n.OpPos, n.Op.String(), is)
		}
		l.constant(n.X)
		l.constant(n.Y)
	case *ast.ValueSpec:
		for _, x := range n.Values {
			l.constant(x)
		}
	case *ast.AssignStmt:
		if is := operators[n.Tok]; is != "" {
			l.add(n.TokPos, n.Tok.String(), is)
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			l.add(n.OpPos, n.Op.String(), "")
		}
	case *ast.CallExpr:
		l.call(n)
	}
	return true
}

// joinsWords reports whether an expression puts texts together: its sign cannot
// turn.
func joinsWords(n *ast.BinaryExpr) bool {
	for _, x := range []ast.Expr{n.X, n.Y} {
		if lit, ok := x.(*ast.BasicLit); ok && lit.Kind == token.STRING && n.Op == token.ADD {
			return true
		}
	}
	return false
}

func (l *lister) call(n *ast.CallExpr) {
	name, ok := n.Fun.(*ast.Ident)
	if selector, is := n.Fun.(*ast.SelectorExpr); is {
		name, ok = selector.Sel, true
	}
	if ok && functions[name.Name] != "" {
		l.add(name.Pos(), name.Name, functions[name.Name])
	}
}

// constant makes a number with which something is reckoned, or which has a name,
// ten times as large.
func (l *lister) constant(x ast.Expr) {
	lit, ok := x.(*ast.BasicLit)
	if !ok || lit.Kind != token.FLOAT && lit.Kind != token.INT {
		return
	}
	if value, err := strconv.ParseFloat(lit.Value, 64); err == nil && value != 0 {
		l.add(lit.Pos(), lit.Value, "(10*"+lit.Value+")")
	}
}

func (l *lister) add(pos token.Pos, was, is string) {
	at := l.files.Position(pos)
	line := strings.Split(string(l.source), "\n")[at.Line-1]
	l.list = append(l.list, change{
		file: l.file, start: at.Offset, end: at.Offset + len(was), row: at.Line, column: at.Column,
		was: was, is: is, line: strings.TrimSpace(line), source: l.source,
	})
}
