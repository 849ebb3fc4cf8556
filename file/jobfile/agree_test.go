package jobfile

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
)

// mutant is a job that was changed in one place, and whether that must be refused.
type mutant struct {
	what, source string
	wrong        bool
}

// TestSchemaAndReaderAgree changes the example of all sections in one place at a time:
// a key that nobody knows is put into each mapping, each key is left out, each value
// is made a list or nonsense. The unknown key is refused by reader and schema; and
// what the schema refuses, the reader refuses too. Some are tried, all where
// ODDLEG_LONG=1.
func TestSchemaAndReaderAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("an independent validator takes its time")
	}
	folder := t.TempDir()
	tried := map[string]mutant{}
	for i, m := range mutants(t, keys.File().Examples()[""]) {
		if i%23 != 0 && os.Getenv("ODDLEG_LONG") != "1" {
			continue
		}
		file := filepath.Join(folder, fmt.Sprint(i))
		if err := os.WriteFile(file, []byte(m.source), 0o600); err != nil {
			t.Fatal(err)
		}
		tried[file] = m
	}
	var files []string
	for file := range tried {
		files = append(files, file)
	}
	refused := 0
	for file, v := range validate(t, files) {
		m := tried[file]
		_, err := Read("", []byte(m.source))
		bySchema := len(v.Wrong[len(v.Wrong)-1]) > 0
		if bySchema {
			refused++
		}
		if m.wrong && !bySchema || bySchema && err == nil {
			t.Errorf("%s: the schema says %q, the reader %v", m.what, v.Wrong[len(v.Wrong)-1], err)
		}
	}
	if len(files) < 50 || refused < len(files)/3 {
		t.Errorf("%d of %d were refused by the schema", refused, len(files))
	}
	t.Logf("%d of %d were refused by the schema, all of them by the reader", refused, len(files))
}

// mutants returns a job changed in every way, one at a time.
func mutants(t *testing.T, source string) []mutant {
	t.Helper()
	root, err := yamltree.Parse(source)
	if err != nil {
		t.Fatal(err)
	}
	var list []mutant
	note := func(what string, wrong bool) { list = append(list, mutant{what, inBraces(root), wrong}) }
	list = append(list, mutant{"as it is", inBraces(root), false})
	change(&root, "", note)
	return list
}

// change changes a node and all in it, one place after the other, and puts each back.
func change(n *yamltree.Node, at string, note func(what string, wrong bool)) {
	whole := *n
	switch n.Shape {
	case yamltree.Mapping:
		odd := yamltree.Pair{Key: yamltree.Node{Shape: yamltree.Scalar, Text: "zz_odd"}, Value: yamltree.Node{Shape: yamltree.List, Items: []yamltree.Node{{Shape: yamltree.List}}}}
		n.Pairs = append(append([]yamltree.Pair{}, whole.Pairs...), odd)
		note("an unknown key in "+at, true)
		for i, p := range whole.Pairs {
			n.Pairs = append(append([]yamltree.Pair{}, whole.Pairs[:i]...), whole.Pairs[i+1:]...)
			note(at+" without "+p.Key.Text, false)
		}
	case yamltree.Scalar:
		*n = yamltree.Node{Shape: yamltree.List, Items: []yamltree.Node{whole}}
		note(at+" as a list", false)
		*n = yamltree.Node{Shape: yamltree.Scalar, Text: "zz odd"}
		note(at+" as nonsense", false)
	}
	*n = whole
	for i := range n.Pairs {
		change(&n.Pairs[i].Value, at+"."+n.Pairs[i].Key.Text, note)
	}
	for i := range n.Items {
		change(&n.Items[i], fmt.Sprintf("%s.%d", at, i), note)
	}
}

// inBraces writes a node on one line.
func inBraces(n yamltree.Node) string {
	var parts []string
	switch n.Shape {
	case yamltree.Mapping:
		for _, p := range n.Pairs {
			parts = append(parts, inBraces(p.Key)+": "+inBraces(p.Value))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case yamltree.List:
		for _, item := range n.Items {
			parts = append(parts, inBraces(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case yamltree.Empty:
		return "null"
	}
	if strings.ContainsAny(n.Text, `:,[]{}"#`) {
		return "'" + strings.ReplaceAll(n.Text, "'", "''") + "'"
	}
	return n.Text
}
