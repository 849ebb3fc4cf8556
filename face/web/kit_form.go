package web

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

func (f *toolForm) wrong(format string, args ...any) {
	f.Wrong = append(f.Wrong, fmt.Sprintf(format, args...))
}

// tools are what a form puts into the kit: one for each size of gauge pieces.
func (f *toolForm) tools() []record.Tool {
	if f.Class == record.Piece && !f.Known {
		if sizes := f.sizes(); len(sizes) > 1 {
			return f.set(sizes)
		}
	}
	tool := f.tool(f.ID, withUnit(f.Values["size"], f.Units))
	if tool.ID == "" {
		tool.ID = idOf(f.Kind, f.Values["size"])
	}
	return []record.Tool{tool}
}

// sizes are those of a set. One without a unit has that of the last one, which
// is written but once as a rule.
func (f *toolForm) sizes() []string {
	list := strings.Split(f.Values["size"], ",")
	word := f.Units
	if last := list[len(list)-1]; withUnit(last, "mm") == last {
		word = "mm"
		if strings.ContainsAny(last, `"i`) {
			word = "in"
		}
	}
	for i := range list {
		list[i] = withUnit(strings.TrimSpace(list[i]), word)
	}
	return list
}

// set is a set of gauge pieces, each called by its kind and its size.
func (f *toolForm) set(sizes []string) []record.Tool {
	var tools []record.Tool
	for _, size := range sizes {
		tools = append(tools, f.tool(idOf(f.Kind, size), size))
	}
	return tools
}

// notInIDs is what an id cannot have.
var notInIDs = regexp.MustCompile(`[^A-Za-z0-9]+`)

// idOf makes an id of a kind and a size: roller_6mm, ball_15_32in.
func idOf(kind, size string) string {
	size = strings.NewReplacer(" mm", "mm", " in", "in", `"`, "in").Replace(size)
	return strings.Trim(notInIDs.ReplaceAllString(kind+" "+size, "_"), "_")
}

// tool is one tool of a form.
func (f *toolForm) tool(id, size string) record.Tool {
	t := record.Tool{ID: id, Class: f.Class, Kind: f.Kind, Calibrated: f.Calibrated, Say: f.Say, Written: f.Values["written"]}
	switch f.Class {
	case record.Piece:
		t.Size.Text, t.Tolerance = size, withUnit(f.Values["tolerance"], f.Units)
		if length, err := unit.ParseLength(size, unit.Millimetre); err == nil {
			t.Size.MM = length.Inside()
		}
	case record.Instrument:
		var list []string
		for _, key := range f.Keys {
			if value := f.Values[key]; value != "" {
				list = append(list, key+": "+f.measured(value))
			}
		}
		t.Written = strings.Join(list, ", ")
	}
	return t
}

// measured writes what an instrument states with its unit: a protractor's is in
// degrees.
func (f *toolForm) measured(value string) string {
	if entry, _ := gauge.InstrumentOf(trade.InstrumentKind(f.Kind)); entry.Angles {
		return value
	}
	return withUnit(value, f.Units)
}

// checkTool notes what is wrong with a tool, as the text of a job would have it.
func (s *kitPages) checkTool(f *toolForm, t record.Tool, known []record.Tool) {
	taken := func(k record.Tool) bool { return k.ID == t.ID && k != t }
	if !f.Known && slices.ContainsFunc(known, taken) {
		f.wrong("%s: something in the kit is called so already; give it another name", t.ID)
		return
	}
	if err := s.readsAsKit(f, t); err != nil {
		for _, fault := range faultsOf(err) {
			f.wrong("%s", fault.Text)
		}
	}
}

// readsAsKit writes a tool into a job and reads that.
func (s *kitPages) readsAsKit(f *toolForm, t record.Tool) error {
	job, err := jobedit.Blank("kit", "mm", trade.Machine{})
	if err != nil {
		return err
	}
	if t.Class == record.Machine {
		written := ""
		if t.Written != "" {
			written = ", " + t.Written
		}
		job, err = jobedit.SetSection(job, "shop", "shop:\n  "+t.ID+": {kind: "+t.Kind+written+"}\n")
	} else {
		job, err = jobedit.Put(job, record.Item{Section: "kit", ID: t.ID, Fields: f.fields(t)})
	}
	if err == nil {
		_, err = readJob(job)
	}
	return err
}

// fields are the keys of a tool in a job.
func (f *toolForm) fields(t record.Tool) []record.Field {
	list := []record.Field{{Key: "kind", Text: t.Kind}}
	values := map[string]string{"size": t.Size.Text, "tolerance": t.Tolerance}
	for _, key := range f.Keys {
		value := values[key]
		if f.Class == record.Instrument && f.Values[key] != "" {
			value = f.measured(f.Values[key])
		}
		if value != "" {
			list = append(list, record.Field{Key: key, Text: value})
		}
	}
	return list
}
