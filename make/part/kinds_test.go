package part_test

import (
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
)

// TestEveryKindIsComplete: each kind of part that can be written has an entry with all
// that is asked of it. That some job makes each is for TestJobs, that its volume is
// that of a closed surface for TestAnyShape.
func TestEveryKindIsComplete(t *testing.T) {
	for _, kind := range trade.PartKinds() {
		if _, known := part.Find(kind); !known {
			t.Errorf("the kind %s has no entry", kind)
		}
	}
	for _, k := range part.Kinds() {
		if missing := part.Missing(k); len(missing) > 0 {
			t.Errorf("%s has no %s", k.Kind, strings.Join(missing, ", no "))
		}
		if k.Kind.Word() != k.PartWord || !slices.Contains(trade.PartKinds(), k.Kind) {
			t.Errorf("%s is another in its entry than in the trade", k.Kind)
		}
	}
}

// TestAMissingFieldIsNamed takes the fields away one by one.
func TestAMissingFieldIsNamed(t *testing.T) {
	for what, spoil := range map[string]func(k *part.Kind){
		"Kind":                                   func(k *part.Kind) { k.Kind = "" },
		"Called":                                 func(k *part.Kind) { k.Called = "" },
		"Stated and build, or neither":           func(k *part.Kind) { k.Stated = nil },
		"section among the keys of the job file": func(k *part.Kind) { k.Kind = "wedge" },
		"Sizes":                                  func(k *part.Kind) { k.Sizes = nil },
		"Sizes of its Plain":                     func(k *part.Kind) { k.Plain = &part.PlainShape{Shape: k.Plain.Shape} },
		"Shape of its Plain":                     func(k *part.Kind) { k.Plain = &part.PlainShape{Sizes: k.Plain.Sizes} },
		"key girth for its Plain":                func(k *part.Kind) { k.Plain = &part.PlainShape{Sizes: []string{"girth"}, Shape: k.Plain.Shape} },
		"build nor Plain":                        func(k *part.Kind) { *k = part.Kind{PartWord: k.PartWord} },
	} {
		bush, _ := part.Find(trade.BushPart)
		k := *bush
		if spoil(&k); !slices.Contains(part.Missing(&k), what) {
			t.Errorf("%s is not named: %q", what, part.Missing(&k))
		}
	}
}

// TestAddAndUndo: a kind of one's own is there until it is taken out again.
func TestAddAndUndo(t *testing.T) {
	bush, _ := part.Find(trade.BushPart)
	k := part.Kind{PartWord: trade.PartWord{Kind: "spacer", Called: "spacer"}, Plain: bush.Plain}
	there := func() bool {
		_, known := part.Find("spacer")
		return known && slices.Contains(trade.PartKinds(), "spacer")
	}
	undo := part.Add(&k)
	if !there() {
		t.Error("what was put in is not there")
	}
	undo()
	if _, known := part.Find("spacer"); known || slices.Contains(trade.PartKinds(), "spacer") {
		t.Error("what was taken out is still there")
	}
	refused := func(what string, k part.Kind) {
		defer func() {
			if recover() == nil {
				t.Errorf("%s was taken", what)
			}
		}()
		part.Add(&k)()
	}
	refused("a kind that is there", *bush)
	refused("half a kind", part.Kind{PartWord: trade.PartWord{Kind: "wedge"}})
}
