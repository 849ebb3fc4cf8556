package jobfile

import (
	"math"
	"slices"
	"time"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// The keys of what was read along a slide, and over rollers.
const (
	stationKey = "at"
	rollerKey  = "rollers"
)

// surveyReader reads surveys.
type surveyReader struct{ *values }

// readSurveys reads what was looked at for wear. Surveys have their ids among
// themselves.
func (r surveyReader) readSurveys(f fields) {
	taken := map[string]trade.Pos{}
	for i, n := range f.list("surveys") {
		r.readSurvey(f, n, numbered(string(aSurvey), i), taken)
	}
}

func (r surveyReader) readSurvey(f fields, n yamltree.Node, id string, taken map[string]trade.Pos) {
	what := id
	if written := textUnder(n, "id"); written != "" {
		what = itemName(string(aSurvey), written)
	}
	kind, known := survey.Find(trade.SurveyKind(textUnder(n, "kind")))
	s := f.item("surveys", n, what)
	look := trade.Survey{
		ID:     id,
		Kind:   trade.SurveyKind(s.text("kind")),
		Of:     s.text("of"),
		Date:   got[time.Time](s, "date"),
		With:   r.instrumentOf(s, "with"),
		Within: s.quantity("within"),
		Say:    s.text("say"),
		Pos:    n.Pos,
	}
	if written := s.text("id"); written != "" {
		look.ID = written
		r.claimAmong(taken, s.at("id"), aSurvey)
	}
	if known && !s.absent() {
		r.readKind(s, kind, &look)
	}
	r.job.Surveys = append(r.job.Surveys, look)
}

// readKind reads what the kind of a survey asks for.
func (r surveyReader) readKind(s fields, kind *survey.Kind, look *trade.Survey) {
	for _, key := range kind.Keys {
		if s.has(key.Name) {
			look.Figures = append(look.Figures, r.surveyFigure(s, key))
		}
	}
	if kind.Stations > 0 {
		look.Stations = r.stations(s, kind.Stations)
	}
	if kind.Rollers {
		look.Rollers = r.rollers(s)
	}
}

func (r surveyReader) surveyFigure(s fields, key survey.Key) trade.SurveyFigure {
	figure := trade.SurveyFigure{Key: key.Name}
	switch key.Sort {
	case survey.Word:
		figure.Word = s.text(key.Name)
	case survey.Instrument:
		figure.Word = r.instrumentOf(s, key.Name)
	case survey.Readings:
		figure.Values = r.seen(s.at(key.Name), s.about(key.Name))
		if key.Count > 0 && len(figure.Values) > 0 && len(figure.Values) != key.Count {
			r.fault(s.at(key.Name), "%s: found %d where a list of %d should be: %s", s.about(key.Name), len(figure.Values), key.Count, key.Say)
		}
	case survey.Angle:
		figure.Values = []unit.Quantity{s.flank(key.Name)}
	case survey.Pitch:
		figure.Values = []unit.Quantity{s.quantity(key.Name)}
	default:
		figure.Values = []unit.Quantity{s.quantity(key.Name)}
	}
	return figure
}

// flank returns the angle of a flank to the flat.
func (f fields) flank(key string) unit.Quantity {
	angle := f.quantity(key)
	if angle.Given() && angle.Inside() >= math.Pi/2 {
		f.r.fault(f.at(key), "%s is %s; a flank leans by less than 90°", f.about(key), yamltree.Quote(f.at(key).Text))
	}
	return angle
}

// instrumentOf returns the id of the instrument under the key, which must show
// lengths.
func (r surveyReader) instrumentOf(s fields, key string) string {
	if s.text(key) == "" {
		return ""
	}
	o, known := r.owner(s.at(key), s.about(key), anInstrument)
	if !known {
		return ""
	}
	i := &r.job.Instruments[o.index]
	for _, q := range []unit.Quantity{i.Resolution, i.MPE, i.Zero, i.Repeat} {
		if q.Given() && q.Dimension() != unit.Length {
			r.fault(s.at(key), "%s: %s shows angles where lengths were read", s.about(key), i.ID)
			return ""
		}
	}
	return i.ID
}

// seen reads one length, or a list of several that were read in one place.
func (r surveyReader) seen(n yamltree.Node, about string) []unit.Quantity {
	items := []yamltree.Node{n}
	if n.Shape == yamltree.List {
		items = n.Items
	}
	switch {
	case len(items) == 0:
		r.fault(n, "%s: nothing was read; write one value at least", about)
	case len(items) > keys.MostRepeats:
		r.fault(items[keys.MostRepeats], "%s: there are %d values; at most %d are read", about, len(items), keys.MostRepeats)
		return nil
	}
	var values []unit.Quantity
	for _, item := range items {
		if q := r.quantity(item, about, r.length, anySign); q.Given() {
			values = append(values, q)
		}
	}
	return values
}

// stations reads what was read along a slide, and puts it in order.
func (r surveyReader) stations(s fields, fewest int) []trade.Station {
	entries := s.entries(stationKey)
	if s.has(stationKey) && s.at(stationKey).Shape == yamltree.Mapping && len(entries) < fewest {
		r.fault(s.at(stationKey), "%s: %d of them; %d at least are wanted", s.about(stationKey), len(entries), fewest)
	}
	if len(entries) > keys.MostStations {
		r.fault(entries[keys.MostStations].Key, "%s: there are %d of them; at most %d are read", s.about(stationKey), len(entries), keys.MostStations)
		return nil
	}
	var stations []trade.Station
	for _, entry := range entries {
		stations = append(stations, trade.Station{
			At:  r.quantity(entry.Key, "place in "+s.what, r.length, anySign),
			Saw: r.seen(entry.Value, s.about(stationKey)+", "+entry.Key.Text),
			Pos: entry.Key.Pos,
		})
	}
	r.inOrder(s, stations)
	return stations
}

// inOrder sorts stations by their place, with a fault for one that is there twice
// in two spellings.
func (r surveyReader) inOrder(s fields, stations []trade.Station) {
	if slices.ContainsFunc(stations, func(t trade.Station) bool { return !t.At.Given() }) {
		return // a fault already
	}
	slices.SortStableFunc(stations, func(a, b trade.Station) int { return a.At.Exact().Cmp(b.At.Exact()) })
	for i := 1; i < len(stations); i++ {
		if a, b := stations[i-1], stations[i]; a.At.Equal(b.At) {
			r.faults.Add(b.Pos, "%s: the place %s stands here a second time; write its values as one list", s.what, b.At)
		}
	}
}

// rollers reads what was read over or between rollers.
func (r surveyReader) rollers(s fields) []trade.RollerReading {
	items := s.list(rollerKey)
	switch {
	case len(items) > keys.MostStations:
		r.fault(items[keys.MostStations], "%s: there are %d of them; at most %d are read", s.about(rollerKey), len(items), keys.MostStations)
		return nil
	case s.has(rollerKey) && len(items) < keys.FewestRollers:
		r.fault(s.at(rollerKey), "%s: %d of them; %d at least are wanted, at both ends", s.about(rollerKey), len(items), keys.FewestRollers)
	}
	var list []trade.RollerReading
	for i, n := range items {
		x := s.item(rollerKey, n, numbered("roller reading", i)+" of "+s.what)
		reading := trade.RollerReading{At: x.quantity("at"), Raised: x.quantity("raised"), Pos: n.Pos}
		if x.has("roller") {
			reading.Roller = r.bound(x, "roller")
		}
		if x.has("saw") {
			reading.Saw = r.seen(x.at("saw"), x.about("saw"))
		}
		list = append(list, reading)
	}
	r.checkDepths(s, list)
	return list
}

// checkDepths faults a dovetail whose angle nothing tells.
func (r surveyReader) checkDepths(s fields, list []trade.RollerReading) {
	if len(list) == 0 || s.has("angle") {
		return
	}
	deeper := func(x trade.RollerReading) bool {
		return !x.Roller.Same(list[0].Roller) || !x.Raised.Equal(list[0].Raised)
	}
	if !slices.ContainsFunc(list, deeper) {
		r.fault(s.at(rollerKey), `%s: all at one depth, which tells no angle: read with a second size of roller, or write "angle"`, s.what)
	}
}
