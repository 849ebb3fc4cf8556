package survey_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/read/survey"
)

func entry(t *testing.T, name string) survey.Kind {
	t.Helper()
	list := survey.Kinds()
	i := slices.IndexFunc(list, func(k *survey.Kind) bool { return string(k.Name) == name })
	if i < 0 {
		t.Fatalf("the catalogue has no %s", name)
	}
	return *list[i]
}

func TestEverySurveyIsComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range survey.Kinds() {
		if missing := survey.Missing(k); len(missing) > 0 {
			t.Errorf("%s has no %s", k.Name, strings.Join(missing, ", no "))
		}
		if found, ok := survey.Find(k.Name); !ok || found != k || seen[k.Title] {
			t.Errorf("%s is not found, or its title stands twice", k.Name)
		}
		seen[k.Title] = true
	}
	if _, ok := survey.Find("sag"); ok {
		t.Error("a survey that is not there was found")
	}
}

// TestAMissingFieldIsNamed takes the fields away one by one.
func TestAMissingFieldIsNamed(t *testing.T) {
	for what, spoil := range map[string]func(k *survey.Kind){
		"Name":                       func(k *survey.Kind) { k.Name = "" },
		"Title":                      func(k *survey.Kind) { k.Title = "" },
		"Says":                       func(k *survey.Kind) { k.Says = "" },
		"Source":                     func(k *survey.Kind) { k.Source = "" },
		"Work":                       func(k *survey.Kind) { k.Work = nil },
		"Finds":                      func(k *survey.Kind) { k.Finds = nil },
		"finding sag for its Judged": func(k *survey.Kind) { k.Judged = "sag" },
		"Stations, Rollers nor readings that it obliges to": func(k *survey.Kind) { k.Stations = 0 },
		"Name of a key":        func(k *survey.Kind) { k.Keys[1].Name = "" },
		"Say of its key angle": func(k *survey.Kind) { k.Keys[1].Say = "" },
		"words, or no Sort for words, of its key reads": func(k *survey.Kind) { k.Keys[0].Words = nil },
		"key gib-with beside its key gib-near":          func(k *survey.Kind) { k.Keys[4].Name = "gib-by" },
	} {
		k := entry(t, "slide-play")
		k.Keys = slices.Clone(k.Keys)
		if spoil(&k); !slices.Contains(survey.Missing(&k), what) {
			t.Errorf("%s is not named: %q", what, survey.Missing(&k))
		}
	}
}

// TestEverySurveyHasAJob sees to it that some job of testdata/jobs makes each survey,
// that it finds what its entry promises and nothing else, and draws it.
func TestEverySurveyHasAJob(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("only %d jobs in testdata/jobs (%v)", len(files), err)
	}
	made := map[*survey.Kind]bool{}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		job, err := jobfile.Read("", source)
		if err != nil {
			t.Fatal(err)
		}
		for i := range job.Surveys {
			a, err := survey.WorkOut(job, &job.Surveys[i])
			if err != nil {
				t.Fatalf("%s, %s: %v", file, job.Surveys[i].ID, err)
			}
			made[a.Kind] = true
			if len(a.Plot.Series) == 0 {
				t.Errorf("%s draws nothing", a.Name())
			}
			for _, f := range a.Findings {
				if !slices.Contains(a.Kind.Finds, f.Key) {
					t.Errorf("%s finds %s, which its entry does not promise", a.Name(), f.Key)
				}
			}
		}
	}
	for _, k := range survey.Kinds() {
		if !made[k] {
			t.Errorf("no job in testdata/jobs has a survey of kind %s", k.Name)
		}
	}
}

// TestEverySurveyIsHeldAgainstAnother: each stands in the independent program, with
// which package upkeep compares the jobs.
func TestEverySurveyIsHeldAgainstAnother(t *testing.T) {
	const oracle = "../../testdata/oracle/upkeep.py"
	source, err := os.ReadFile(oracle)
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := bytes.Cut(source, []byte("KINDS = {"))
	for _, k := range survey.Kinds() {
		if !bytes.Contains(table, []byte(`"`+string(k.Name)+`": `)) {
			t.Errorf("%s is not worked out by %s", k.Name, oracle)
		}
	}
}

// TestAddAndUndo: a kind of one's own counts until it is taken out again, in the
// description of the job file too.
func TestAddAndUndo(t *testing.T) {
	k := entry(t, "facing")
	k.Name = "boring"
	described := func() bool {
		key, _ := keys.Section("surveys").Key("kind")
		return slices.Contains(key.Holds.Among, "boring")
	}
	undo := survey.Add(&k)
	if !described() {
		t.Error("what was put in is not described")
	}
	undo()
	if described() {
		t.Error("what was taken out is still described")
	}
	refused := func(what string, k survey.Kind) {
		defer func() {
			if recover() == nil {
				t.Errorf("%s was taken", what)
			}
		}()
		survey.Add(&k)()
	}
	refused("a kind that is there", entry(t, "facing"))
	refused("half a kind", survey.Kind{Name: "sag"})
}
