package store

import (
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// stocked is a store with three jobs, a spare, a photograph with a pin and a gauge
// piece; an example is put away.
func stocked(t *testing.T) *Store {
	t.Helper()
	s := fresh(t)
	stud := save(t, s, "", 0, "stud", 0).Job
	for _, x := range []record.Index{
		{
			Name: "Gib of the cross slide", Machine: trade.Machine{What: "planer", Built: 1911}, Part: "Gib", Words: []string{"worn hollow"},
			Sizes: []record.Size{{Name: "thick", Text: "6.35 mm", MM: 6.35}}, Threads: []record.Thread{{Name: "screw", Designation: "7/16 BSW"}},
		},
		{Name: "Crémaillère", Machine: shaper, Part: "Rack", Sizes: []record.Size{{Name: "face", Text: "11.5 mm", MM: 11.5}}},
	} {
		must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(0), Source: []byte(x.Name), Index: x}))
	}
	must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(1), Job: stud, Made: 2, Place: "drawer 4", Better: "harden the nose", Sizes: []record.Size{{Name: "shank", Text: "11.11 mm", MM: 11.11}}}))
	photo := must[record.Photograph](t)(s.AddPhotograph(ctx, record.Photograph{Stamp: record.Stamp{When: begun, Note: "broken tail of the stud, notebook page"}, Job: stud, Data: picture(t, 1)}))
	must[record.Pin](t)(s.PutPin(ctx, stud, photo.SHA256, record.Pin{X: 0.25, Y: 0.75, Size: "shank", Say: "scored here"}, at(1)))
	example := must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(0), Example: true, Source: []byte("example"), Index: record.Index{
		Name: "Example plunger", Machine: trade.Machine{What: "planer"}, Words: []string{"shaper 1936"}, Threads: []record.Thread{{Designation: "7/16 BSW"}},
	}}))
	if err := s.PutAway(ctx, example.Job, true, at(1)); err != nil {
		t.Fatal(err)
	}
	if err := s.PutTool(ctx, record.Tool{ID: "roll4", Class: record.Piece, Kind: "roller", Size: record.Size{Text: "4 mm", MM: 4}, Tolerance: "0.002 mm", Calibrated: "2030-11-02"}); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestFind(t *testing.T) {
	s := stocked(t)
	const stud, gib, rack, roller = "Clamp of the tool head", "Gib of the cross slide", "Crémaillère", "roll4"
	for _, c := range []struct {
		name    string
		query   record.Query
		want    []string
		missing string
	}{
		{"nothing asked", record.Query{}, nil, ""},
		{"only signs", record.Query{Words: []string{"?", "-- \"", "\x00"}}, nil, ""},
		{"a thread on a machine", record.Query{Words: []string{"1936", "shaper"}, Threads: []string{"7/16 BSW"}}, []string{stud}, ""},
		{"a word that is not there", record.Query{Words: []string{"1936", "shaper", "flange"}, Threads: []string{"7/16 bsw"}}, []string{stud}, "flange"},
		{"a thread", record.Query{Threads: []string{"7/16 BSW"}}, []string{stud, gib}, ""},
		{"a thread that is nowhere", record.Query{Words: []string{"shaper"}, Threads: []string{"M12"}}, nil, ""},
		{"a size, the nearest first", record.Query{Sizes: []record.Span{{MM: 11.1125, Within: 0.5}}}, []string{stud, rack}, ""},
		{"a size, close", record.Query{Sizes: []record.Span{{MM: 11.1125, Within: 0.01}}}, []string{stud}, ""},
		{"two sizes", record.Query{Sizes: []record.Span{{MM: 11.1, Within: 0.1}, {MM: 62, Within: 0.1}}}, []string{stud}, ""},
		{"a machine", record.Query{Words: []string{"planer"}}, []string{gib}, ""},
		{"a plural", record.Query{Words: []string{"studs"}}, []string{stud}, ""},
		{"the beginning of a word", record.Query{Words: []string{"clap"}}, []string{stud}, ""},
		{"without the accents", record.Query{Words: []string{"cremaillere"}}, []string{rack}, ""},
		{"what to do better", record.Query{Words: []string{"HARDEN"}}, []string{stud}, ""},
		{"where it is", record.Query{Words: []string{"drawer", "4"}}, []string{stud}, ""},
		{"a photograph", record.Query{Words: []string{"notebook"}}, []string{stud}, ""},
		{"a pin", record.Query{Words: []string{"scored"}}, []string{stud}, ""},
		{"the kit", record.Query{Words: []string{"roller"}}, []string{roller}, ""},
		{"the kit by its size", record.Query{Sizes: []record.Span{{MM: 4, Within: 0.01}}}, []string{roller}, ""},
		{"the language of the search is text", record.Query{Words: []string{`shaper" OR "planer`}}, nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var names []string
			var missing []string
			for _, hit := range must[[]record.Hit](t)(s.Find(ctx, c.query)) {
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
	hit := must[[]record.Hit](t)(s.Find(ctx, record.Query{Sizes: []record.Span{{MM: 11.1125, Within: 0.1}}, Threads: []string{"7/16 BSW"}}))[0]
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
	bare := record.Index{Name: "Renamed", Machine: shaper}
	must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(1), Job: job, From: 1, Source: []byte("two"), Index: bare}))
	must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(1), Job: job, From: 1, Source: []byte("beside"), Index: record.Index{Name: "Branch"}}))
	query := record.Query{Words: []string{"clapper"}, Threads: []string{"7/16 BSW"}}
	if hits := must[[]record.Hit](t)(s.Find(ctx, query)); len(hits) != 0 {
		t.Errorf("found %+v in a revision that is not current", hits)
	}
	must[record.Saved](t)(s.Undo(ctx, job, 2, at(2)))
	if hits := must[[]record.Hit](t)(s.Find(ctx, query)); len(hits) != 1 || hits[0].Job.Name != clamp.Name {
		t.Errorf("after the undo: %+v", hits)
	}
}

func TestKit(t *testing.T) {
	s := stocked(t)
	lathe := record.Tool{ID: "lathe", Class: record.Machine, Kind: "lathe", Written: "{leadscrew: 8 tpi}", Say: "by the door"}
	for range 2 {
		if err := s.PutTool(ctx, lathe); err != nil {
			t.Fatal(err)
		}
	}
	if all := must[[]record.Tool](t)(s.Kit(ctx)); len(all) != 2 || all[0] != lathe || all[1].Calibrated != "2030-11-02" {
		t.Errorf("kit: %+v", all)
	}
	if err := s.DropTool(ctx, "lathe"); err != nil {
		t.Fatal(err)
	}
	if hits := must[[]record.Hit](t)(s.Find(ctx, record.Query{Words: []string{"door"}})); len(hits) != 0 {
		t.Errorf("what was dropped is found: %+v", hits)
	}
	for words, wrong := range map[string]record.Tool{
		"needs an id":         {Class: record.Piece},
		"no class of the kit": {ID: "x", Class: "toy"},
		"is no date":          {ID: "x", Class: record.Piece, Calibrated: "last spring"},
		"more than 0":         {ID: "x", Class: record.Piece, Size: record.Size{Text: "none"}},
		"not UTF-8":           {ID: "x", Class: record.Piece, Say: "\xff"},
	} {
		refuses(t, s.PutTool(ctx, wrong), words)
	}
}
