package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// shopFlags name a machine of a shop.
type shopFlags struct {
	Shop string `help:"File (YAML) that lists the machines of the shop." placeholder:"FILE"`
	On   string `help:"Which machine of the shop; needed where it has several." placeholder:"ID"`
}

// machine returns a copy of the machine that was named, an empty one where no
// shop was given. What is wrong with the file is told here.
func (f shopFlags) machine(s streams, g *given, asJSON bool) (*trade.Machinery, error) {
	if f.Shop == "" {
		if f.On != "" {
			g.wrong("--on is a machine of a shop: give --shop too")
		}
		return &trade.Machinery{}, nil
	}
	source, err := readJob(f.Shop, s.in)
	if err != nil {
		return nil, err
	}
	job, err := jobfile.Read(f.Shop, source)
	var faults trade.Faults
	if errors.As(err, &faults) {
		return nil, complain(s, f.Shop, asJSON, source, faults)
	}
	if err != nil {
		return nil, err
	}
	return f.choose(job, g), nil
}

// choose picks the machine.
func (f shopFlags) choose(job *trade.Job, g *given) *trade.Machinery {
	machine := job.Machinery(f.On)
	if f.On == "" && len(job.Shop) == 1 {
		machine = &job.Shop[0]
	}
	if machine == nil {
		f.noMachine(job, g)
		return &trade.Machinery{}
	}
	chosen := *machine
	return &chosen
}

func (f shopFlags) noMachine(job *trade.Job, g *given) {
	var ids []string
	for _, m := range job.Shop {
		ids = append(ids, m.ID)
	}
	have := "the shop has " + strings.Join(ids, ", ")
	if meant, ok := near.Word(f.On, ids); ok {
		have = "did you mean " + meant + "?"
	}
	switch {
	case len(ids) == 0:
		g.wrong("--shop: %s lists no machines", f.Shop)
	case f.On == "":
		g.wrong("--on: say which machine; %s", have)
	default:
		g.wrong("--on: there is no machine %q; %s", f.On, have)
	}
}

// mostListed bounds a list of numbers, so that a range is not endless.
const mostListed = 1000

// wholes reads whole numbers greater than 0: "20,24,30-33".
func (g *given) wholes(flag, text string) []int {
	var list []int
	if text == "" {
		return nil
	}
	for _, item := range strings.Split(text, ",") {
		first, last, ranged := strings.Cut(strings.TrimSpace(item), "-")
		low, err := strconv.Atoi(strings.TrimSpace(first))
		high := low
		if ranged && err == nil {
			high, err = strconv.Atoi(strings.TrimSpace(last))
		}
		if err != nil || low < 1 || high < low || high-low >= mostListed || len(list) >= mostListed {
			g.wrong("%s: %q: whole numbers are wanted, with commas between, or a range: 20,24,30-33", flag, item)
			return nil
		}
		for n := low; n <= high; n++ {
			list = append(list, n)
		}
	}
	return list
}

// ratios reads ratios of whole numbers: "1/2,1/1,2".
func (g *given) ratios(flag, text string) []trade.Ratio {
	var list []trade.Ratio
	if text == "" {
		return nil
	}
	for _, item := range strings.Split(text, ",") {
		ratio, err := ratioOf(item)
		if err != nil {
			g.wrong("%s: %v", flag, err)
			return nil
		}
		list = append(list, ratio)
	}
	return list
}

func ratioOf(text string) (trade.Ratio, error) {
	q, err := unit.ParseNumber(text)
	if err != nil {
		return trade.Ratio{}, err
	}
	r := q.Exact()
	if r.Sign() <= 0 {
		return trade.Ratio{}, fmt.Errorf("%q is not greater than 0", text)
	}
	return trade.Ratio{Num: int(r.Num().Int64()), Den: int(r.Denom().Int64())}, nil
}
