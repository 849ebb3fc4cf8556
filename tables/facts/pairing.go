package facts

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

// The embedded tables of what suits a material.
var (
	//go:embed wear_pairs.csv
	wearPairs string
	//go:embed cautions.csv
	cautions string
)

// WearPair says how a material runs against another.
type WearPair struct {
	One, Other string // "steel, hardened", "phosphor bronze"
	Verdict    string // "good", "fair", "poor"
	Why        string
	Source     string
}

// Caution is what not to do to a material.
type Caution struct {
	Material string // the names it is for
	About    string // "weld", "harden", "load" ...
	Text     string
	Source   string
}

var readWearPairs = sync.OnceValue(func() []WearPair {
	var list []WearPair
	for _, r := range rows(wearPairs) {
		list = append(list, WearPair{One: r["one"], Other: r["other"], Verdict: r["verdict"], Why: r["why"], Source: r["source"]})
	}
	return list
})

var readCautions = sync.OnceValue(func() []Caution {
	var list []Caution
	for _, r := range rows(cautions) {
		list = append(list, Caution{Material: r["material"], About: r["about"], Text: r["text"], Source: r["source"]})
	}
	return list
})

// WearPairs returns how the material runs against others, itself as One.
func (m Material) WearPairs() []WearPair {
	var list []WearPair
	for _, p := range readWearPairs() {
		switch {
		case m.isA(p.One):
			list = append(list, p)
		case m.isA(p.Other):
			p.One, p.Other = p.Other, p.One
			list = append(list, p)
		}
	}
	return list
}

// Cautions returns what not to do to the material.
func (m Material) Cautions() []Caution {
	var list []Caution
	for _, c := range readCautions() {
		if slices.ContainsFunc(strings.Split(c.Material, " / "), m.isA) {
			list = append(list, c)
		}
	}
	return list
}

// isA reports whether the material is what a table calls by its family, by its
// short name or by words of its name: a steel is both "steel, hardened" and
// "steel, soft".
func (m Material) isA(term string) bool {
	kind, _, _ := strings.Cut(term, ",")
	return kind == m.Family || slices.Contains(strings.Split(m.EN, " / "), kind) || strings.Contains(" "+m.Name+" ", " "+kind+" ")
}
