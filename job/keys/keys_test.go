package keys

import (
	"slices"
	"strings"
	"testing"
	"unicode"
)

// TestDescriptionIsComplete: every entry and every key says in a sentence what it
// is, and shows one that may be written; no rule speaks of a key that is not there.
func TestDescriptionIsComplete(t *testing.T) {
	var names []string
	for _, e := range File().Walk() {
		if e.Each == "" || !isSentence(e.Says) {
			t.Errorf("%s %q: says %q of itself", e.Name, e.Each, e.Says)
		}
		if e.Name != "" && slices.Contains(names, e.Name) {
			t.Errorf("two entries are called %s", e.Name)
		}
		names = append(names, e.Name)
		for _, k := range e.All() {
			checkKey(t, e, k)
		}
		checkRules(t, e)
		checkCases(t, e)
	}
	if described := len(File().Described()); described < 50 {
		t.Errorf("only %d entries are described", described)
	}
}

func isSentence(text string) bool {
	return text != "" && unicode.IsUpper([]rune(text)[0]) && strings.HasSuffix(text, ".")
}

func checkKey(t *testing.T, e *Entry, k Key) {
	t.Helper()
	own := slices.ContainsFunc(e.Keys, func(of Key) bool { return of.Name == k.Name })
	if k.Says == "" || e.Name != "" && own && !isSentence(k.Says) {
		t.Errorf("%s.%s says %q", e.Name, k.Name, k.Says)
	}
	deep := k.Holds.Item != nil && len(k.Holds.entries()) > 0 || e.Name == "" || !own
	if k.Example == "" && !deep {
		t.Errorf("%s.%s has no example", e.Name, k.Name)
	}
	if k.Required && k.Default != "" {
		t.Errorf("%s.%s must be there, and yet has a default", e.Name, k.Name)
	}
	if k.Holds.Kind == Word && k.Example != "" && !slices.Contains(k.Holds.Among, k.Example) {
		t.Errorf("%s.%s: the example %q is none of its words", e.Name, k.Name, k.Example)
	}
}

func checkRules(t *testing.T, e *Entry) {
	t.Helper()
	for _, rule := range e.Rules {
		checkNames(t, e, rule.With, rule.Without, rule.Needs, rule.OneOf, rule.Refuses)
		if (len(rule.Refuses) > 0) != (rule.Why != "") {
			t.Errorf("%s: a rule refuses %v because %q", e.Name, rule.Refuses, rule.Why)
		}
	}
	checkNames(t, e, e.OneOf...)
	for _, pair := range e.Exclusive {
		checkNames(t, e, pair[:])
	}
}

func checkCases(t *testing.T, e *Entry) {
	t.Helper()
	for _, c := range e.Cases {
		checkNames(t, e, c.Needs, []string{c.Key})
		for _, refusal := range c.Refuses {
			checkNames(t, e, refusal.Keys)
			if refusal.Why == "" {
				t.Errorf("%s: %v are refused without a word", e.Name, refusal.Keys)
			}
		}
		k, _ := e.Key(c.Key)
		for _, w := range c.Words {
			if !slices.Contains(k.Holds.Among, w) {
				t.Errorf("%s: the case %q is none of the words of %s", e.Name, w, c.Key)
			}
		}
	}
}

func checkNames(t *testing.T, e *Entry, lists ...[]string) {
	t.Helper()
	for _, name := range slices.Concat(lists...) {
		if _, there := e.Key(name); !there {
			t.Errorf("%s: a rule speaks of %s, which it does not have", e.Name, name)
		}
	}
}

// TestHoldsInWords reads phrases of the help; they are constructed.
func TestHoldsInWords(t *testing.T) {
	for want, h := range map[string]Holds{
		"a length above 0 (mm or in)":                         above0(Length),
		"a length above 0 (mm or in), or a size of the part":  above0(Measure),
		"a force, not negative (N, kN or lbf)":                notNegative(Force),
		"one of in, out":                                      word("in", "out"),
		"all; or a whole number from 2 to 5":                  either(word("all"), whole(2, 5)),
		"a list, each the id of a bolt":                       list(reference("a bolt")),
		"a number, or a list of such":                         list(anySign(Number)).orOne(),
		"by slide: a length above 0 (mm or in)":               byName("slide", above0(Length)),
		"a coefficient of friction above 0 up to 1":           friction(Friction),
		"a length above 0, or the id of a piece":              {Kind: Bound, Of: "a piece"},
		"an instrument or a gauge piece {…}, see kit":         mapping(kit()),
		"a length, angle or number above 0 (as its kind is)":  above0(OfKind),
		"a range of coefficients of friction above 0 up to 1": friction(FrictionRange),
	} {
		if got := h.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestCasesChooseKeys: the word under a key says which others may stand.
func TestCasesChooseKeys(t *testing.T) {
	survey := Section("surveys")
	of := func(kind string) []string {
		known, _ := survey.In(func(string) string { return kind })
		return NamesOf(known)
	}
	if got := of("ram"); !slices.Contains(got, "feet") || slices.Contains(got, "rim") {
		t.Errorf("a survey of a ram may have %v", got)
	}
	if got := of("ramm"); !slices.Contains(got, "feet") || !slices.Contains(got, "rim") {
		t.Errorf("a survey of an unknown kind may have %v", got)
	}
	if Section("part.sizes") == nil || Section("part.size") != nil {
		t.Error("sections are found by a name that is not theirs")
	}
}
