package yamltree

import (
	"bufio"
	"bytes"
	"encoding/json"
	"reflect"
	"strconv"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// TestParseAgreesWithPyYAML reads documents of every style with this reader and
// with PyYAML's (python3-yaml): shapes, texts and places must be the same.
func TestParseAgreesWithPyYAML(t *testing.T) {
	const documents, seed = 700, "1"
	output := oracle.Python(t, "yaml").Output(t, nil, "testdata/compose.py", seed, strconv.Itoa(documents))
	lines := bufio.NewScanner(bytes.NewReader(output))
	lines.Buffer(nil, MaxSize)
	count := 0
	for lines.Scan() {
		var document [2]any
		if err := json.Unmarshal(lines.Bytes(), &document); err != nil {
			t.Fatal(err)
		}
		compareTree(t, document[0].(string), document[1])
		count++
	}
	if count != documents {
		t.Errorf("%d documents", count)
	}
}

func compareTree(t *testing.T, text string, want any) {
	t.Helper()
	plain, err := Plain([]byte(text))
	if err != nil {
		t.Errorf("%q: %v", text, err)
		return
	}
	root, err := Parse(plain)
	if err != nil {
		t.Errorf("%q: %v", text, err)
		return
	}
	if got := treeOf(root); !reflect.DeepEqual(got, want) {
		t.Errorf("%q\ngot  %v\nwant %v", text, got, want)
	}
}

// treeOf returns a node as the Python program writes it.
func treeOf(n Node) any {
	switch n.Shape {
	case Scalar:
		return []any{"s", n.Text, float64(n.Pos.Line), float64(n.Pos.Column)}
	case List:
		tree := []any{"l"}
		for _, item := range n.Items {
			tree = append(tree, treeOf(item))
		}
		return tree
	case Mapping:
		tree := []any{"m"}
		for _, p := range n.Pairs {
			tree = append(tree, treeOf(p.Key), treeOf(p.Value))
		}
		return tree
	}
	return []any{"e"}
}
