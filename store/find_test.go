package store

import (
	"slices"
	"strings"
	"testing"

	"oddleg"
)

// stocked is a store with three jobs, a spare and a gauge piece.
func stocked(t *testing.T) *Store {
	t.Helper()
	s := fresh(t)
	stud := save(t, s, "", 0, "stud", 0).Job
	for _, x := range []Index{
		{
			Name: "Gib of the cross slide", Machine: oddleg.Machine{What: "planer", Built: 1911}, Part: "Gib", Words: []string{"worn hollow"},
			Sizes: []Size{{"thick", "6.35 mm", 6.35}}, Threads: []Thread{{"screw", "7/16 BSW"}},
		},
		{Name: "Crémaillère", Machine: shaper, Part: "Rack", Sizes: []Size{{"face", "11.5 mm", 11.5}}},
	} {
		must[Saved](t)(s.Save(ctx, Save{Stamp: at(0), Source: []byte(x.Name), Index: x}))
	}
	must[Entry](t)(s.Shelve(ctx, Entry{Stamp: at(1), Job: stud, Made: 2, Place: "drawer 4", Better: "harden the nose", Sizes: []Size{{"shank", "11.11 mm", 11.11}}}))
	must[Photograph](t)(s.AddPhotograph(ctx, Photograph{Stamp: Stamp{When: begun, Note: "broken tail of the stud, notebook page"}, Job: stud, Data: picture(t, 1)}))
	if err := s.PutTool(ctx, Tool{ID: "roll4", Class: Piece, Kind: "roller", Size: Size{"", "4 mm", 4}, Tolerance: "0.002 mm", Calibrated: "2030-11-02"}); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestFind(t *testing.T) {
	s := stocked(t)
	const stud, gib, rack, roller = "Clamp of the tool head", "Gib of the cross slide", "Crémaillère", "roll4"
	for _, c := range []struct {
		name    string
		query   Query
		want    []string
		missing string
	}{
		{"nothing asked", Query{}, nil, ""},
		{"only signs", Query{Words: []string{"?", "-- \"", "\x00"}}, nil, ""},
		{"a thread on a machine", Query{Words: []string{"1936", "shaper"}, Threads: []string{"7/16 BSW"}}, []string{stud}, ""},
		{"a word that is not there", Query{Words: []string{"1936", "shaper", "flange"}, Threads: []string{"7/16 bsw"}}, []string{stud}, "flange"},
		{"a thread", Query{Threads: []string{"7/16 BSW"}}, []string{stud, gib}, ""},
		{"a thread that is nowhere", Query{Words: []string{"shaper"}, Threads: []string{"M12"}}, nil, ""},
		{"a size, the nearest first", Query{Sizes: []Span{{11.1125, 0.5}}}, []string{stud, rack}, ""},
		{"a size, close", Query{Sizes: []Span{{11.1125, 0.01}}}, []string{stud}, ""},
		{"two sizes", Query{Sizes: []Span{{11.1, 0.1}, {62, 0.1}}}, []string{stud}, ""},
		{"a machine", Query{Words: []string{"planer"}}, []string{gib}, ""},
		{"a plural", Query{Words: []string{"studs"}}, []string{stud}, ""},
		{"the beginning of a word", Query{Words: []string{"clap"}}, []string{stud}, ""},
		{"without the accents", Query{Words: []string{"cremaillere"}}, []string{rack}, ""},
		{"what to do better", Query{Words: []string{"HARDEN"}}, []string{stud}, ""},
		{"where it is", Query{Words: []string{"drawer", "4"}}, []string{stud}, ""},
		{"a photograph", Query{Words: []string{"notebook"}}, []string{stud}, ""},
		{"the kit", Query{Words: []string{"roller"}}, []string{roller}, ""},
		{"the kit by its size", Query{Sizes: []Span{{4, 0.01}}}, []string{roller}, ""},
		{"the language of the search is text", Query{Words: []string{`shaper" OR "planer`}}, nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var names []string
			var missing []string
			for _, hit := range must[[]Hit](t)(s.Find(ctx, c.query)) {
				name := ""
				if hit.Job != nil {
					name = hit.Job.Name
				} else {
					name = hit.Tool.ID
				}
				names, missing = append(names, name), hit.Missing
			}
			if !slices.Equal(names, c.want) || strings.Join(missing, " ") != c.missing {
				t.Errorf("found %q without %q, want %q without %q", names, missing, c.want, c.missing)
			}
		})
	}
}

func TestFindSaysWhereAndWhat(t *testing.T) {
	s := stocked(t)
	hit := must[[]Hit](t)(s.Find(ctx, Query{Sizes: []Span{{11.1125, 0.1}}, Threads: []string{"7/16 BSW"}}))[0]
	if want := []string{"shank 11.11 mm, on the shelf", "shank 11.03 mm", "tail 7/16 BSW"}; !slices.Equal(hit.Matched, want) {
		t.Errorf("matched %q, want %q", hit.Matched, want)
	}
	if hit.Job.OnShelf != 2 || !slices.Equal(hit.Places, []string{"drawer 4"}) {
		t.Errorf("on the shelf: %d at %q", hit.Job.OnShelf, hit.Places)
	}
}

// TestSearchKnowsTheCurrentRevision: what a later revision has no more is not
// found, and an undo brings it back.
func TestSearchKnowsTheCurrentRevision(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	bare := Index{Name: "Renamed", Machine: shaper}
	must[Saved](t)(s.Save(ctx, Save{Stamp: at(1), Job: job, From: 1, Source: []byte("two"), Index: bare}))
	must[Saved](t)(s.Save(ctx, Save{Stamp: at(1), Job: job, From: 1, Source: []byte("beside"), Index: Index{Name: "Branch"}}))
	query := Query{Words: []string{"clapper"}, Threads: []string{"7/16 BSW"}}
	if hits := must[[]Hit](t)(s.Find(ctx, query)); len(hits) != 0 {
		t.Errorf("found %+v in a revision that is not current", hits)
	}
	must[Saved](t)(s.Undo(ctx, job, 2, at(2)))
	if hits := must[[]Hit](t)(s.Find(ctx, query)); len(hits) != 1 || hits[0].Job.Name != clamp.Name {
		t.Errorf("after the undo: %+v", hits)
	}
}

func TestKit(t *testing.T) {
	s := stocked(t)
	lathe := Tool{ID: "lathe", Class: Machine, Kind: "lathe", Written: "{leadscrew: 8 tpi}", Say: "by the door"}
	for range 2 {
		if err := s.PutTool(ctx, lathe); err != nil {
			t.Fatal(err)
		}
	}
	if all := must[[]Tool](t)(s.Kit(ctx)); len(all) != 2 || all[0] != lathe || all[1].Calibrated != "2030-11-02" {
		t.Errorf("kit: %+v", all)
	}
	if err := s.DropTool(ctx, "lathe"); err != nil {
		t.Fatal(err)
	}
	if hits := must[[]Hit](t)(s.Find(ctx, Query{Words: []string{"door"}})); len(hits) != 0 {
		t.Errorf("what was dropped is found: %+v", hits)
	}
	refuses(t, s.PutTool(ctx, Tool{Class: Piece}), "needs an id")
}
