package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The sections of a job's text with the shop's machines and the order of work.
const (
	shopSection = "shop"
	workSection = "work"
)

// setUpPages answer for how the part is made on the machines of the shop.
type setUpPages struct{ *desk }

func (s *setUpPages) routes(t *table) {
	t.on("GET /job/{job}/setups", s.setUpsPage)
	t.on("POST /job/{job}/setups/gears", s.findGears)
	t.on("GET /job/{job}/setups/dividing", s.dividingPage)
	for _, section := range []struct {
		at   string
		form func(r *http.Request) (*jobView, *entryForm, error)
		name string
	}{{"machines", s.machineForm, shopSection}, {"operations", s.operationForm, workSection}} {
		t.on("GET /job/{job}/setups/"+section.at+"/new", s.showEntry(section.form))
		t.on("POST /job/{job}/setups/"+section.at+"/new", s.keepEntry(section.form))
		t.on("GET /job/{job}/setups/"+section.at+"/{entry}", s.showEntry(section.form))
		t.on("POST /job/{job}/setups/"+section.at+"/{entry}", s.keepEntry(section.form))
		t.on("POST /job/{job}/setups/"+section.at+"/{entry}/drop", s.drops(section.name, "setups"))
	}
	t.on("POST /job/{job}/setups/machines/take", s.takeMachine)
}

// showEntry shows a form as the text has it.
func (s *setUpPages) showEntry(form func(r *http.Request) (*jobView, *entryForm, error)) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		v, f, err := form(r)
		if err != nil {
			return err
		}
		return s.show(w, r, http.StatusOK, entryPage(s.lookAt(r, v, f.Title), f, ""))
	}
}

// keepEntry saves what a form was filled with.
func (s *setUpPages) keepEntry(form func(r *http.Request) (*jobView, *entryForm, error)) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		v, f, err := form(r)
		if err != nil {
			return err
		}
		return s.saveEntry(w, r, v, f, (*entryForm).changed)
	}
}

// setUpsPage says how the part is set up, and what may be changed or asked.
func (s *setUpPages) setUpsPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.SetUps))
	if err != nil {
		return err
	}
	var list *spoken
	wrong := said(v.Faults)
	if v.Found != nil {
		list, wrong = s.told(v, reckon.SetUps)
	}
	tools, err := s.Record.Kit(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, setUpsPage(s.lookAt(r, v, "Set-ups"), list, wrong, v.otherMachines(tools)))
}

// otherMachines are those of the shop that the job has not.
func (v *jobView) otherMachines(tools []record.Tool) []record.Tool {
	return slices.DeleteFunc(slices.Clone(tools), func(t record.Tool) bool {
		return t.Class != record.Machine || v.worked.Job == nil || v.machine(t.ID) != nil
	})
}

// machine is one of the job's, nil where it has none of this id.
func (v *jobView) machine(id string) *trade.Machinery {
	i := slices.IndexFunc(v.worked.Job.Shop, func(m trade.Machinery) bool { return m.ID == id })
	if i < 0 {
		return nil
	}
	return &v.worked.Job.Shop[i]
}

// takeMachine puts a machine of the shop's kit into the job as it is written there.
func (s *setUpPages) takeMachine(w http.ResponseWriter, r *http.Request) error {
	tools, err := s.Record.Kit(r.Context())
	if err != nil {
		return err
	}
	i := slices.IndexFunc(tools, func(t record.Tool) bool { return t.Class == record.Machine && t.ID == r.FormValue("machine") })
	if i < 0 {
		return wrong("there is no machine %q in the shop's kit", r.FormValue("machine"))
	}
	saved, err := s.change(w, r, "machine "+tools[i].ID+" taken in", func(source []byte) ([]byte, error) {
		section, err := jobedit.Section(source, shopSection)
		if err != nil {
			return nil, err
		}
		if section == "" {
			section = shopSection + ":\n"
		}
		written := "  " + tools[i].ID + ": {kind: " + tools[i].Kind
		if tools[i].Written != "" {
			written += ", " + tools[i].Written
		}
		source, err = jobedit.SetSection(source, shopSection, strings.TrimRight(section, "\n")+"\n"+written+"}\n")
		if err == nil {
			_, err = readJob(source)
		}
		return source, err
	})
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+r.PathValue("job")+"/setups")
}

// machineForm is the form of a machine of the shop.
func (s *setUpPages) machineForm(r *http.Request) (*jobView, *entryForm, error) {
	v, err := s.view(r, string(reckon.SetUps))
	if err != nil {
		return nil, nil, err
	}
	if v.worked.Job == nil {
		return nil, nil, v.Faults
	}
	f := &entryForm{
		Title: "A machine of the shop", Section: shopSection, Stem: "machine", Named: true, Back: "setups", At: "setups/machines", From: v.Revision,
		Say: "Dials, travels, a rotary table and cutters are written by hand in the section shop of the text.", Fields: machineKeys(),
	}
	if id := r.PathValue("entry"); id != "" {
		m := v.machine(id)
		if m == nil {
			return nil, nil, errNotThere
		}
		f.ID, f.Title = id, "Machine "+id
		f.was(machineValues(m))
	}
	return v, f, nil
}

func machineKeys() []entryField {
	return []entryField{
		{Key: "kind", Label: "Kind", Choices: choicesOf("choose", trade.MachineKinds...)},
		{Key: "speeds", Label: "Speeds of the spindle", List: true, Hint: "rev/min, with commas between"},
		{Key: "leadscrew", Label: "Leadscrew", Hint: "of a lathe: 8 tpi, 3 mm"},
		{Key: "fixed-ratio", Label: "Fixed ratio", Hint: "turns of the first stud for one of the spindle: 1/1"},
		{Key: "gearbox", Label: "Gearbox", List: true, Hint: "turns of the leadscrew for one of its input: 1/2, 1/1, 2/1"},
		{Key: "gears", Label: "Change gears", List: true, Hint: "by their teeth; one written twice is there twice"},
		{Key: "readout", Label: "Readout", Choices: []entryChoice{{"", "none"}, {"yes", "digital"}}},
		{Key: "saw-kerf", Label: "Kerf of a saw", Hint: "2 mm"},
		{Key: "say", Label: "To know of it"},
	}
}

func machineValues(m *trade.Machinery) map[string]string {
	values := map[string]string{
		"kind": string(m.Kind), "leadscrew": quantityText(m.Leadscrew), "saw-kerf": quantityText(m.SawKerf), "say": m.Say,
		"speeds": withCommas(m.Speeds), "gears": withCommas(m.Gears),
	}
	if m.FixedRatio.Given() {
		values["fixed-ratio"] = ratioText(m.FixedRatio)
	}
	var ways []string
	for _, way := range m.Gearbox {
		ways = append(ways, ratioText(way))
	}
	values["gearbox"] = strings.Join(ways, ", ")
	if m.Readout {
		values["readout"] = "yes"
	}
	return values
}

func ratioText(r trade.Ratio) string { return fmt.Sprintf("%d/%d", r.Num, r.Den) }

func withCommas[T int | float64](list []T) string {
	var words []string
	for _, x := range list {
		words = append(words, fmt.Sprint(x))
	}
	return strings.Join(words, ", ")
}

// operationForm is the form of one operation of the work.
func (s *setUpPages) operationForm(r *http.Request) (*jobView, *entryForm, error) {
	v, err := s.view(r, string(reckon.SetUps))
	if err != nil {
		return nil, nil, err
	}
	job := v.worked.Job
	if job == nil {
		return nil, nil, v.Faults
	}
	f := &entryForm{
		Title: "An operation", Section: workSection, Stem: "op", Named: true, Back: "setups", At: "setups/operations", From: v.Revision,
		Say: "Where coordinates are counted from and how the work is held are written by hand in the section work of the text.", Fields: operationKeys(job),
	}
	if id := r.PathValue("entry"); id != "" {
		i := slices.IndexFunc(job.Work, func(o trade.Operation) bool { return o.ID == id })
		if i < 0 {
			return nil, nil, errNotThere
		}
		f.ID, f.Title = id, capital(id)
		f.was(operationValues(&job.Work[i]))
	}
	return v, f, nil
}

func operationKeys(job *trade.Job) []entryField {
	var machines, cutters []string
	for i := range job.Shop {
		machines = append(machines, job.Shop[i].ID)
		for j := range job.Shop[i].Cutters {
			cutters = append(cutters, job.Shop[i].Cutters[j].ID)
		}
	}
	return []entryField{
		{Key: "do", Label: "What is done", Hint: "turn the shank; drill the holes"},
		{Key: "on", Label: "On", Choices: choicesOf("no machine", machines...)},
		{Key: "makes", Label: "It makes", Choices: []entryChoice{{"part", "the part"}, {"", "something else"}}, Value: "part"},
		{Key: "needs", Label: "After", List: true, Hint: "the names of operations that come before it, with commas between"},
		{Key: "cutter", Label: "Cutter", Choices: choicesOf("not said", cutters...)},
		{Key: "leave", Label: "Leave for finishing", Hint: "0.3 mm"},
		{Key: "apart", Label: "Takes apart", Choices: choicesOf("no machine", machines...), Hint: "a machine that cannot be used from then on"},
		{Key: "back", Label: "Puts together again", Choices: choicesOf("no machine", machines...)},
		{Key: "say", Label: "To know of it"},
	}
}

func operationValues(o *trade.Operation) map[string]string {
	return map[string]string{
		"do": o.Do, "on": o.On, "makes": map[bool]string{true: "part"}[o.Makes], "needs": strings.Join(o.Needs, ", "), "cutter": o.Cutter, "leave": quantityText(o.Leave),
		"apart": o.Apart, "back": o.Back, "say": o.Say,
	}
}

// capital begins words with a large letter.
func capital(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

// dividingPage says how a rotary table is turned by one step: it is asked in the
// address.
func (s *setUpPages) dividingPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.SetUps))
	if err != nil {
		return err
	}
	if v.worked.Job == nil {
		return v.Faults
	}
	list, err := s.divided(r, v)
	return s.show(w, r, http.StatusOK, dividingPage(s.lookAt(r, v, "Dividing"), list, said(faultsOf(err)), r.FormValue("table"), r.FormValue("into")))
}

// divided answers: into so many, or by steps of an angle.
func (s *setUpPages) divided(r *http.Request, v *jobView) (*spoken, error) {
	into := strings.TrimSpace(r.FormValue("into"))
	if into == "" {
		return nil, nil
	}
	m := v.machine(r.FormValue("table"))
	if m == nil || m.Table == nil {
		return nil, wrong("there is no machine %q with a rotary table or a dividing head in this job", r.FormValue("table"))
	}
	var wanted lathe.DividingWanted
	count, err := strconv.Atoi(into)
	if err == nil {
		wanted.Count = count
	} else if wanted.Angle, err = unit.ParseAngle(into); err != nil {
		return nil, wrong("%q: a number of divisions, or the angle of a step, 12.5 deg", into)
	}
	d, err := lathe.Divide(m.Table, wanted)
	if err != nil {
		return nil, err
	}
	return v.spoken(say.Dividing(d, "")), nil
}

// lathes are the machines that cut threads by change gears.
func (v *jobView) lathes() []entryChoice {
	return v.machinesWith(func(m *trade.Machinery) bool { return len(m.Gears) > 1 && m.Leadscrew.Given() })
}

// tables are the machines that divide.
func (v *jobView) tables() []entryChoice {
	return v.machinesWith(func(m *trade.Machinery) bool { return m.Table != nil })
}

func (v *jobView) machinesWith(what func(m *trade.Machinery) bool) []entryChoice {
	var list []entryChoice
	if v.worked.Job == nil {
		return nil
	}
	for i := range v.worked.Job.Shop {
		if m := &v.worked.Job.Shop[i]; what(m) {
			list = append(list, entryChoice{m.ID, m.ID})
		}
	}
	return list
}
