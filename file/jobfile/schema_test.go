package jobfile

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// beyond are the wrong files that a schema cannot see, by what it would have to
// know.
var beyond = map[string][]string{
	"what the ids in a file stand for": {
		"centres-is-a-hole", "checks-drilled", "checks-without-part", "id-reserved", "id-twice",
		"instrument-dimension", "joint-without-part", "role-dimension", "role-unknown-id",
		"shape-measures", "shape-shoe-angle", "bound-wrong",
	},
	"what an expression means": {
		"formula-dimension", "formula-name", "formula-no-size", "formula-syntax", "part-size-formula",
		"relation-dimension", "relation-no-size", "relation-syntax",
	},
	"what a value measures, which another key says": {
		"kit-dimension", "number-size", "part-size-angle-goes-in", "saw-unreadable", "size-dimension",
		"size-guess", "size-not-positive", "saw-negative",
	},
	"how two values of the file compare, or what follows from several": {
		"bound-equal", "bound-wrong-way", "shape-plate-outline-short", "work-apart", "work-circle",
		"kit-no-error", "kit-no-scatter", "kit-other",
	},
	"how a length or a material is written": {
		"length-bare-fraction", "part-material", "too-many-digits",
	},
	"what of YAML a job file goes without, which a reader of YAML has passed by then": {
		"anchor", "complex-key", "control-in-text", "directive", "duplicate-key", "tag", "wrapped-minus",
	},
}

// validation is what the validator says of one file.
type validation struct {
	File  string
	Read  bool       // by PyYAML
	Wrong [][]string // with every scalar a text, and by the rules of YAML 1.2
}

// validate asks an independent validator, testdata/oracle/schema.py.
func validate(t *testing.T, files []string) map[string]validation {
	t.Helper()
	out := oracle.Python(t, "jsonschema", "yaml").Output(t, keys.File().Schema(), append([]string{oracle.Script(t, "schema.py")}, files...)...)
	found := map[string]validation{}
	for line := range bytes.Lines(out) {
		var v validation
		if err := json.Unmarshal(line, &v); err != nil {
			t.Fatal(err)
		}
		found[v.File] = v
	}
	if len(found) != len(files) {
		t.Fatalf("%d of %d files were looked at", len(found), len(files))
	}
	return found
}

// TestSchemaPassesEveryJob: no job that is read is refused by the schema, nor any
// example of the description.
func TestSchemaPassesEveryJob(t *testing.T) {
	folder := t.TempDir()
	var files []string
	write := func(name, source string) {
		file := filepath.Join(folder, name)
		if err := os.WriteFile(file, []byte(source), 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	for _, pattern := range []string{"../../testdata/jobs/*.yaml", "../../examples/*.yaml"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatal(pattern, err)
		}
		files = append(files, found...)
	}
	patterns, err := filepath.Glob("../../examples/parts/*.yaml")
	if err != nil || len(patterns) == 0 {
		t.Fatal(err)
	}
	for _, file := range patterns {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		write(filepath.Base(file), head+string(source))
	}
	for name, source := range keys.File().Examples() {
		write("example "+name, source)
	}
	for file, v := range validate(t, files) {
		for _, wrong := range v.Wrong {
			for _, w := range wrong {
				t.Errorf("%s: %s", file, w)
			}
		}
	}
}

// TestSchemaRefusesWrongFiles: a file that is wrong for an unknown key, a wrong sort
// of value, a missing key or a wrong word is refused by the schema, as YAML 1.2
// is read. What it cannot see is listed, and no more than that.
func TestSchemaRefusesWrongFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/faults/*.yaml")
	if err != nil || len(files) < 60 {
		t.Fatal(len(files), err)
	}
	listed := slices.Concat(slices.Collect(maps.Values(beyond))...)
	refused := 0
	for file, v := range validate(t, files) {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		seen := !v.Read || len(v.Wrong[len(v.Wrong)-1]) > 0
		if seen {
			refused++
		}
		if known := slices.Contains(listed, name); known == seen {
			t.Errorf("%s: refused by the schema: %v, listed as beyond it: %v", name, seen, known)
		}
	}
	t.Logf("%d of %d wrong files are refused by the schema", refused, len(files))
}

// head is the least that a file must have.
const head = "oddleg: 1\njob: trial\n"
