package jobfile

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"reflect"
	"strconv"
	"testing"
)

// python is Debian's own: another may come first on the path.
const python = "/usr/bin/python3"

// needPyYAML skips a test where PyYAML is missing; under CI it fails.
func needPyYAML(t *testing.T) {
	t.Helper()
	if exec.Command(python, "-c", "import yaml").Run() == nil {
		return
	}
	const missing = "the independent reader needs the Debian package python3-yaml"
	if os.Getenv("CI") == "true" {
		t.Fatal(missing)
	}
	t.Skip(missing)
}

// TestParseAgreesWithPyYAML reads documents of every style with this reader and
// with PyYAML's (python3-yaml): shapes, texts and places must be the same.
func TestParseAgreesWithPyYAML(t *testing.T) {
	const documents, seed = 700, "1"
	needPyYAML(t)
	command := exec.Command(python, "testdata/compose.py", seed, strconv.Itoa(documents))
	command.Stderr = os.Stderr
	output, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
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
	plain, err := plainText([]byte(text))
	if err != nil {
		t.Errorf("%q: %v", text, err)
		return
	}
	root, err := parse(plain)
	if err != nil {
		t.Errorf("%q: %v", text, err)
		return
	}
	if got := treeOf(root); !reflect.DeepEqual(got, want) {
		t.Errorf("%q\ngot  %v\nwant %v", text, got, want)
	}
}

// treeOf returns a node as the Python program writes it.
func treeOf(n node) any {
	switch n.shape {
	case scalar:
		return []any{"s", n.text, float64(n.pos.Line), float64(n.pos.Column)}
	case list:
		tree := []any{"l"}
		for _, item := range n.items {
			tree = append(tree, treeOf(item))
		}
		return tree
	case mapping:
		tree := []any{"m"}
		for _, p := range n.pairs {
			tree = append(tree, treeOf(p.key), treeOf(p.value))
		}
		return tree
	}
	return []any{"e"}
}
