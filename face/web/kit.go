package web

import (
	"cmp"
	"net/http"
	"slices"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// kitPages answer for the shop's kit: instruments, gauge pieces and machines.
type kitPages struct{ *desk }

func (s *kitPages) routes(t *table) {
	t.on("GET /kit", s.kitPage)
	t.on("GET /kit/new/{class}", writers(s.newToolPage))
	t.on("POST /kit/new/{class}", s.addTools)
	t.on("GET /kit/at/{tool}", s.toolPage)
	t.on("POST /kit/at/{tool}", s.changeTool)
	t.on("POST /kit/at/{tool}/drop", s.dropTool)
}

// kitClass is one class of the kit as it is shown.
type kitClass struct {
	Class       record.Class
	Title, Name string // of all of it, and of one
	Empty       string
	Kinds       func() []string
	Keys        []string // what is written of one beside its kind, in order
}

// kitClasses are the classes of the kit in the order of the page.
var kitClasses = []kitClass{
	{
		record.Instrument, "Instruments", "instrument", "The micrometer and the caliper that you use most come first.",
		func() []string { return wordsOf(gauge.InstrumentKinds()) },
		[]string{"resolution", "mpe", "zero", "repeat"},
	},
	{
		record.Piece, "Gauge pieces", "gauge piece", "Rollers, balls, pins and blocks of known size come here, in sets.",
		func() []string { return wordsOf(gauge.PieceKinds()) },
		[]string{"size", "tolerance"},
	},
	{
		record.Machine, "Machines of the shop", "machine", "Those that parts are made on come here, with their speeds and gears.",
		func() []string { return wordsOf(trade.MachineKinds) },
		[]string{"written"},
	},
}

func wordsOf[T ~string](list []T) []string {
	words := make([]string, len(list))
	for i, word := range list {
		words[i] = string(word)
	}
	return words
}

// keyWords say what a key of the kit asks for.
var keyWords = map[string]struct{ label, hint string }{
	"resolution": {"Resolution", "one step of its scale or display: 0.01"},
	"mpe":        {"Largest error, ±", "as its certificate or maker says; empty: as usual for its kind"},
	"zero":       {"Zero, standard uncertainty", "only where you know it better"},
	"repeat":     {"Repeat, standard uncertainty", "only where you know it better"},
	"size":       {"Size", "one, or a set at once: 5, 6, 8, 10"},
	"tolerance":  {"Tolerance, ±", "0.002; empty: taken as exact"},
	"written":    {"What it has", "as in a job's text: speeds: [90, 200, 400], leadscrew: 8 tpi, gears: [20, 25, 30]"},
}

// toolForm is something of the kit as it was typed.
type toolForm struct {
	kitClass
	ID, Kind, Units, Calibrated, Say string
	Known                            bool // it is in the kit, and changed here
	Values                           map[string]string
	Wrong                            []string
}

// kitPage shows all of the kit.
func (s *kitPages) kitPage(w http.ResponseWriter, r *http.Request) error {
	tools, err := s.Record.Kit(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, kitPage(s.look(r, "Kit"), tools))
}

// of are the tools of a class, kinds together and the smaller first.
func (c kitClass) of(tools []record.Tool) []record.Tool {
	list := slices.DeleteFunc(slices.Clone(tools), func(t record.Tool) bool { return t.Class != c.Class })
	slices.SortStableFunc(list, func(a, b record.Tool) int {
		return cmp.Or(strings.Compare(a.Kind, b.Kind), cmp.Compare(a.Size.MM, b.Size.MM), strings.Compare(a.ID, b.ID))
	})
	return list
}

// classOf finds a class by its word.
func classOf(word record.Class) (kitClass, error) {
	i := slices.IndexFunc(kitClasses, func(c kitClass) bool { return c.Class == word })
	if i < 0 {
		return kitClass{}, errNotThere
	}
	return kitClasses[i], nil
}

func (s *kitPages) newToolPage(w http.ResponseWriter, r *http.Request) error {
	class, err := classOf(record.Class(r.PathValue("class")))
	if err != nil {
		return err
	}
	form := toolForm{kitClass: class, Units: unitWord(personOf(r).Units)}
	return s.show(w, r, http.StatusOK, toolPage(s.look(r, "New "+class.Name), form))
}

func unitWord(u unit.Unit) string {
	if u == unit.Inch {
		return "in"
	}
	return "mm"
}

func (s *kitPages) toolPage(w http.ResponseWriter, r *http.Request) error {
	tool, err := s.toolOf(r)
	if err != nil {
		return err
	}
	class, err := classOf(tool.Class)
	if err != nil {
		return err
	}
	form := toolForm{kitClass: class, Units: unitWord(personOf(r).Units), Known: true}
	form.fill(tool)
	return s.show(w, r, http.StatusOK, toolPage(s.look(r, tool.ID), form))
}

// toolOf finds the tool of a request.
func (s *kitPages) toolOf(r *http.Request) (record.Tool, error) {
	tools, err := s.Record.Kit(r.Context())
	if err != nil {
		return record.Tool{}, err
	}
	i := slices.IndexFunc(tools, func(t record.Tool) bool { return t.ID == r.PathValue("tool") })
	if i < 0 {
		return record.Tool{}, errNotThere
	}
	return tools[i], nil
}

// fill shows what is recorded of a tool in its form.
func (f *toolForm) fill(t record.Tool) {
	f.ID, f.Kind, f.Calibrated, f.Say = t.ID, t.Kind, t.Calibrated, t.Say
	f.Values = map[string]string{"size": t.Size.Text, "tolerance": t.Tolerance, "written": t.Written}
	if t.Class != record.Instrument {
		return
	}
	for _, one := range strings.Split(t.Written, ",") {
		if key, value, found := strings.Cut(one, ":"); found {
			f.Values[strings.TrimSpace(key)] = strings.TrimSpace(value)
		}
	}
}

// addTools puts one thing into the kit, or a set of gauge pieces.
func (s *kitPages) addTools(w http.ResponseWriter, r *http.Request) error {
	class, err := classOf(record.Class(r.PathValue("class")))
	if err != nil {
		return err
	}
	return s.putTools(w, r, readTool(r, class))
}

// changeTool changes what is in the kit already.
func (s *kitPages) changeTool(w http.ResponseWriter, r *http.Request) error {
	tool, err := s.toolOf(r)
	if err != nil {
		return err
	}
	class, err := classOf(tool.Class)
	if err != nil {
		return err
	}
	form := readTool(r, class)
	form.ID, form.Known = tool.ID, true
	return s.putTools(w, r, form)
}

// readTool takes in what was typed.
func readTool(r *http.Request, class kitClass) toolForm {
	f := toolForm{
		kitClass: class, ID: lineOf(r, "id"), Kind: lineOf(r, "kind"), Units: r.FormValue("units"),
		Calibrated: lineOf(r, "calibrated"), Say: lineOf(r, "say"), Values: map[string]string{},
	}
	for _, key := range class.Keys {
		f.Values[key] = strings.Join(strings.Fields(r.FormValue(key)), " ")
	}
	return f
}

// putTools keeps what a form says, all of it or nothing.
func (s *kitPages) putTools(w http.ResponseWriter, r *http.Request, f toolForm) error {
	tools := f.tools()
	known, err := s.Record.Kit(r.Context())
	if err != nil {
		return err
	}
	for _, tool := range tools {
		s.checkTool(&f, tool, known)
	}
	if _, err := time.Parse(time.DateOnly, f.Calibrated); f.Calibrated != "" && err != nil {
		f.wrong("%q is no day: write it as 2024-03-01", f.Calibrated)
	}
	for _, tool := range tools {
		if len(f.Wrong) > 0 {
			break
		}
		err := s.Record.PutTool(r.Context(), tool)
		if faults := asFaults(err); err != nil && faults == nil {
			return err
		}
		f.Wrong = append(f.Wrong, said(asFaults(err))...)
	}
	if len(f.Wrong) > 0 {
		return s.show(w, r, http.StatusUnprocessableEntity, toolPage(s.look(r, "Kit"), f))
	}
	return goTo(w, r, "/kit")
}

// dropTool takes something out of the kit.
func (s *kitPages) dropTool(w http.ResponseWriter, r *http.Request) error {
	if err := s.Record.DropTool(r.Context(), r.PathValue("tool")); err != nil {
		return err
	}
	return goTo(w, r, "/kit")
}
