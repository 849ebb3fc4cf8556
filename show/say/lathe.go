package say

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// decimal writes a number with so many decimals.
func decimal(x float64, decimals int) string {
	text, _ := unit.WithUncertainty(x, math.Pow10(1-decimals))
	return text
}

// figure writes a number without zeros on its end.
func figure(x float64) string {
	text, _ := unit.WithUncertainty(x, 0)
	return text
}

func signedDecimal(x float64, decimals int) string {
	if x < 0 {
		return decimal(x, decimals)
	}
	return "+" + decimal(x, decimals)
}

// told is a length with so many decimals of a millimetre.
func told(mm float64, decimals int) unit.Amount { return unit.Rounded{MM: mm, Decimals: decimals} }

// toldBare is the same without its unit.
func toldBare(mm float64, decimals int) unit.Amount {
	return unit.Rounded{MM: mm, Decimals: decimals, Bare: true}
}

// across is a diameter as it is taken from a list: without zeros on its end.
func across(mm float64) unit.Amount {
	return unit.Written(func(v unit.View) string {
		if v.Unit() == unit.Inch {
			return figure(mm/unit.MillimetresPerInch) + " in"
		}
		return figure(mm) + " mm"
	})
}

// number writes a number of things: 1 turn, 2 turns.
func number(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// ChangeGears says by which trains a thread is cut, at most so many sets of gears,
// and what each is out over a length in mm, if one is stated.
func ChangeGears(m *trade.Machinery, found *lathe.ChangeGears, length float64, most int) *doc.Document {
	said := fmt.Sprintf("%v on a leadscrew of %v", found.Wanted.Pitch, m.Leadscrew)
	if found.Wanted.Feed {
		said = "feed of " + said
	}
	if starts := found.Wanted.Starts; starts > 1 {
		said += fmt.Sprintf(": %d starts, lead %s mm", starts, decimal(found.Lead, 4))
	}
	p := titled(said)
	p.trains(found, found.Trains, length, most)
	p.gearsDoubts(found)
	if len(found.Substitutes) > 0 {
		p.section("Without the gear that translates inches and millimetres")
		p.trains(found, found.Substitutes, length, most)
	}
	p.gearsNotes(found)
	p.atTheMachine()
	return &p.Document
}

// trains lists each set of gears. Of the orders in which the gears of a set can stand
// the first is shown.
func (p *page) trains(found *lathe.ChangeGears, list []lathe.Train, length float64, most int) {
	t := &doc.Table{Name: "trains", Columns: []doc.Column{
		plain("drivers"), plain("driven"), plain("gearbox"),
		{Name: "pitch", Head: doc.Plain("pitch, mm")},
		plain("threads per inch"),
		{Name: "error", Head: doc.Plain("error, ppm")},
		{Name: "over", Head: doc.Plain("out over " + figure(length) + " mm")},
	}}
	shown, sets := []lathe.Train{}, 0
	for _, train := range list {
		if slices.ContainsFunc(shown, train.Same) {
			continue
		}
		if sets++; len(shown) < most {
			shown = append(shown, train)
			t.Add(trainRow(train, max(1, found.Wanted.Starts), length))
		}
	}
	p.Add(t.Filled())
	if left := sets - len(shown); left > 0 {
		p.say("and %s, none of them better", number(left, "more set"))
	}
}

func trainRow(t lathe.Train, starts int, length float64) doc.Cells {
	pitch := t.Lead / float64(starts)
	row := doc.Cells{
		"drivers": doc.Plain(teeth(t.Drivers)), "driven": doc.Plain(teeth(t.Driven)), "gearbox": doc.Plain(ratioText(t.Gearbox)),
		"pitch": doc.Plain(decimal(pitch, 5)), "threads per inch": doc.Plain(decimal(unit.MillimetresPerInch/pitch, 4)), "error": doc.Plain("exact"),
	}
	if t.Error != 0 {
		row["error"] = doc.Plain(signedDecimal(t.Error*1e6, 0))
		if length > 0 {
			row["over"] = doc.Plain(signedDecimal(t.Over(length), 3) + " mm")
		}
	}
	return row
}

// teeth writes gears in order from the spindle.
func teeth(gears []int) string {
	var list []string
	for _, n := range gears {
		list = append(list, strconv.Itoa(n))
	}
	return strings.Join(list, ", ")
}

func ratioText(r trade.Ratio) string {
	if !r.Given() {
		return ""
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

// gearsDoubts says why no train is exact.
func (p *page) gearsDoubts(found *lathe.ChangeGears) {
	if found.Nearby {
		p.apart("%s", warning(doc.Plain("No train is as near as was wanted: these are the nearest.")))
	}
	if found.Lacking > 0 && !found.Wanted.Feed {
		p.apart("No train can be exact: that takes a gear of %d teeth, or a multiple of it, and there is none.", found.Lacking)
	}
}

func (p *page) gearsNotes(found *lathe.ChangeGears) {
	p.section("Notes")
	p.item("Gears stand in order from the spindle: the first driver turns the first driven, which shares its stud with the second driver.")
	p.item("A simple train takes any gear between its two as an idler. One idler more or less, or the tumbler, makes a left-hand thread.")
	p.item("Whether the arm reaches is not known here: try the train by hand.")
	if starts := found.Wanted.Starts; starts > 1 {
		p.item("From start to start turn the spindle by 1/%d with the leadscrew held: with a fixed ratio of 1/1 a first driver whose teeth %d "+
			"divides is unmeshed, turned by that part of them and meshed again; or move the top slide by the pitch.", starts, starts)
	}
}

// atTheMachine says what to mind there.
func (p *page) atTheMachine() {
	p.section("Mind")
	for _, text := range plan.Cautions() {
		p.item("%s", text)
	}
}

// CutSpeeds says at what speed to start cutting. The machine is the id of the one
// whose speeds were looked at, empty where there is none.
func CutSpeeds(s *lathe.CutSpeeds, machine string) *doc.Document {
	p := &page{}
	p.Title = speedsTitle(s)
	p.speeds(s, machine)
	p.speedRows(s)
	p.feed(s, doc.Apart)
	for _, text := range s.Warnings {
		p.apart("%s", warning(doc.Plain(text)))
	}
	p.atTheMachine()
	var sources sourceList
	for _, row := range s.Rows {
		sources.add(row.Material+", "+row.Operation, row.Source)
	}
	p.sources(sources)
	return &p.Document
}

func speedsTitle(s *lathe.CutSpeeds) doc.Text {
	return doc.Say("%s of %s, %s, %s tool", s.Wanted.Operation, s.Wanted.Material, across(s.Wanted.Diameter), string(s.Wanted.Tool))
}

// speeds says what a material counts as, and which speed to start with.
func (p *page) speeds(s *lathe.CutSpeeds, machine string) {
	if s.CountsAs != s.Wanted.Material {
		p.say("counts as %s", s.CountsAs)
	}
	start := decimal(s.Start, 0) + " rev/min"
	switch {
	case s.Set > s.Start:
		start = fmt.Sprintf("%s rev/min of the %s, its lowest, for %s", figure(s.Set), machine, decimal(s.Start, 0))
	case s.Set > 0:
		start = fmt.Sprintf("%s rev/min of the %s, the nearest not over %s", figure(s.Set), machine, start)
	}
	p.say("start with %s", strong(start))
}

// feetPerMetre turns m/min into ft/min.
const feetPerMetre = 1 / 0.3048

func (p *page) speedRows(s *lathe.CutSpeeds) {
	t := &doc.Table{Name: "speeds", Space: doc.Apart, Columns: []doc.Column{
		plain("the tables have"), plain("for"), plain("m/min"), plain("ft/min"), plain("rev/min"),
	}}
	between := func(low, high float64) doc.Text {
		if low == high {
			return doc.Plain(decimal(low, 0))
		}
		return doc.Plain(decimal(low, 0) + " to " + decimal(high, 0))
	}
	for _, r := range s.Rows {
		t.Add(doc.Cells{
			"the tables have": marked(r.Material, r.Source), "for": doc.Plain(r.Operation + ", " + r.Tool), "m/min": between(r.Low, r.High),
			"ft/min": between(r.Low*feetPerMetre, r.High*feetPerMetre), "rev/min": between(r.Slow, r.Fast),
		})
	}
	p.Add(t)
	p.apart("These are starting values, and no standard stands behind them: rev/min = 1000·v/(π·d). Work, tool and machine say what they bear.")
}

// FeedWords says what a feed is counted in, in millimetres.
var FeedWords = map[lathe.FeedOf]string{
	lathe.PerTurn:     "mm for a turn of the spindle",
	lathe.PerDiameter: "of the diameter for a turn",
	lathe.PerTooth:    "mm for a tooth",
}

func (p *page) feed(s *lathe.CutSpeeds, space doc.Space) {
	if s.Feed != nil {
		p.Add(doc.Paragraph{Words: doc.Say("Feed: %s, the least of it to finish (common practice, no source).", feedRange{s.Feed}), Space: space})
	}
}

// feedRange is a feed from the least to the most.
type feedRange struct{ *lathe.FeedCustom }

// Shown writes the feed: in inches to a tenth of a thou.
func (f feedRange) Shown(v unit.View) string {
	words := FeedWords[f.Of]
	if of, isLength := strings.CutPrefix(words, "mm "); isLength && v.Unit() == unit.Inch {
		return toldBare(f.Low, 3).Shown(v) + " to " + toldBare(f.High, 3).Shown(v) + " in " + of
	}
	return figure(f.Low) + " to " + figure(f.High) + " " + words
}

// TaperSetting says how a lathe is set for a taper, and how that is checked.
func TaperSetting(s *lathe.TaperSetting) *doc.Document {
	p := &page{}
	p.Title = taperTitle(s)
	p.taperSetting(s)
	return &p.Document
}

func taperTitle(s *lathe.TaperSetting) doc.Text {
	return doc.Say("Taper of %s to the axis", amount(s.Wanted.HalfAngle, unit.Angle))
}

func (p *page) taperSetting(s *lathe.TaperSetting) {
	angle := amount(s.Swivel, unit.Angle)
	t := &doc.Table{Name: "settings", Columns: []doc.Column{plain("by"), plain("set"), {Name: "or"}}}
	t.Add(doc.Cells{"by": doc.Plain("the top slide"), "set": doc.Show(angle), "or": doc.Plain(toTenthOfMinute(s.Swivel))})
	t.Add(doc.Cells{
		"by": doc.Plain("a taper attachment"), "set": doc.Say("%s, or %s where it is graduated so", angle, amount(2*s.Swivel, unit.Angle)),
		"or": doc.Say("%s in/ft, %s mm in 100 mm, 1:%s on the diameter",
			decimal(12*s.PerLength, 4), decimal(100*s.PerLength, 3), decimal(1/s.PerLength, 3)),
	})
	if !math.IsNaN(s.SetOver) {
		t.Add(doc.Cells{
			"by": doc.Plain("the tailstock"), "set": doc.Plain(decimal(s.SetOver, 3) + " mm over"), "or": doc.Plain(unit.ThouText(s.SetOver)),
		})
	}
	p.Add(t)
	p.apart("Check: with a dial square to the axis and on centre height, %s of the carriage must move it by %s, %s of the top slide along itself "+
		"by %s. 0.01 mm of the dial is %s of the angle.",
		told(s.Check, 1), told(s.ByCarriage, 3), told(s.Check, 1), told(s.ByTopSlide, 3), amount(s.Sensitivity, unit.Angle))
	for _, text := range s.Warnings {
		p.say("%s", warning(doc.Plain(text)))
	}
}

// toTenthOfMinute writes an angle as a graduated slide has it, 2° 51.7'.
func toTenthOfMinute(rad float64) string {
	tenths := math.Round(rad * degreesPerRadian * 600)
	whole := math.Floor(tenths / 600)
	return fmt.Sprintf("%.0f° %s'", whole, decimal((tenths-600*whole)/10, 1))
}

// Stock says what to saw for a part.
func Stock(s *plan.Stock) *doc.Document {
	p := &page{}
	p.stock(s)
	return &p.Document
}

func (p *page) stock(s *plan.Stock) {
	p.section("Stock")
	section := doc.Say("round bar of %s or more", unit.Twice(s.Width))
	if s.Section == plan.FlatBar {
		section = doc.Say("flat bar of %s × %s or more", toldBare(s.Width, 1), told(s.Thickness, 1))
	}
	p.say("%s, sawn to %s", section, unit.Twice(s.Length))
	p.say("%s with %s: %s of bar with the kerfs, %s of that for the spares, which are worth sawing while the saw is set up.",
		number(s.Plan.Pieces, "piece"), number(s.Plan.Spares, "spare"), told(s.Bar, 0), told(s.Spare, 0))
	p.say("Allowed: %s to face each end, %s on the diameter or sides, %s of kerf (common practice, no source).",
		told(s.Plan.Facing, 1), told(s.Plan.Skin, 1), told(s.Plan.Kerf, 1))
	if s.Mass > 0 {
		p.say("%s kg each as sawn, %s kg finished", decimal(s.Mass, 3), decimal(s.Finished, 3))
	}
	for _, note := range s.Notes {
		p.say("%s", note)
	}
}
