package jobfile_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

const shop = `oddleg: 1
job: A repair
part: {kind: key}
shop:
  lathe:
    kind: lathe
    speeds: [105, 38, 62.5, 38]
    leadscrew: 8 tpi
    fixed-ratio: 1/1
    gearbox: [1/2, 1, 2/1, 1.5]
    gears: [20, 20, 127]
    gear-clearance: 12
    dials: {cross: {division: 0.001 in, turn: 0.1 in, reads: diameter}, top slide: {division: 0.02, reads: radius}}
    travels: {cross: 6 in}
    say: the old one
  mill:
    kind: mill
    readout: true
    rotary-table: {ratio: 40, plates: [15, 16], divisions: 72, gears: [24, 28]}
    cutters:
      em12: {kind: end-mill, diameter: 12, teeth: 4, material: hss}
      saw:  {kind: slitting-saw, diameter: 3 in}
  bandsaw: {kind: saw, saw-kerf: 1.2, readout: no}
`

const work = `work:
  - {do: saw it off, on: bandsaw}
  - id: faces
    do: mill both faces
    on: mill
    makes: part
    cutter: em12
    leave: 0.2
    centre: [100, -50.5]
    say: keep the slide covered
    hold:
      contacts:
        fixed: {kind: jaw, at: [0, -20], towards: 90, width: 100}
        moving: {kind: jaw, at: [0, 20], towards: 270 deg, width: 80, clamping: 5 kN}
        end: {kind: stop, at: [-40, 0], towards: 0}
        grub: {kind: screw, at: [40, 0], towards: 180, clamping: 800 N}
        strap: {kind: clamp, at: [10, 10], clamping: 4 kN, bolt: 30, heel: 90}
      force: 500 N
      at: [0, 25]
      towards: -0.5 rad
      friction: 0.15
  - {do: take its slide off, apart: mill}
  - {do: put it back and bore, back: mill, on: mill}
`

func TestShop(t *testing.T) {
	job := mustRead(t, shop)
	same(t, "where a machine was written", job.Shop[0].Pos, at(5, 3))
	tpi, _ := unit.ParsePitch("8 tpi", unit.Millimetre)
	same(t, "lathe", unplaced(*job.Machinery("lathe")), trade.Machinery{
		ID: "lathe", Kind: trade.Lathe, Speeds: []float64{38, 62.5, 105},
		Leadscrew: tpi, FixedRatio: trade.Ratio{Num: 1, Den: 1},
		Gearbox: []trade.Ratio{{Num: 1, Den: 2}, {Num: 1, Den: 1}, {Num: 2, Den: 1}, {Num: 3, Den: 2}},
		Gears:   []int{20, 20, 127}, Clearance: 12,
		Dials: []trade.DialScale{
			{Slide: "cross", Division: length("0.001 in"), Turn: length("0.1 in"), Reads: trade.ReadsDiameter},
			{Slide: "top slide", Division: length("0.02"), Reads: trade.ReadsRadius},
		},
		Travels: []trade.Travel{{Slide: "cross", Length: length("6 in")}},
		Say:     "the old one",
	})
	same(t, "mill", unplaced(*job.Machinery("mill")), trade.Machinery{
		ID: "mill", Kind: trade.Mill, Readout: true,
		Table: &trade.RotaryTable{Ratio: 40, Plates: []int{15, 16}, Divisions: 72, Gears: []int{24, 28}},
		Cutters: []trade.Cutter{
			{ID: "em12", Kind: "end-mill", Diameter: length("12"), Teeth: 4, Material: "hss"},
			{ID: "saw", Kind: "slitting-saw", Diameter: length("3 in")},
		},
	})
	same(t, "saw", unplaced(*job.Machinery("bandsaw")), trade.Machinery{ID: "bandsaw", Kind: trade.Saw, SawKerf: length("1.2")})
	same(t, "none", job.Machinery("planer"), (*trade.Machinery)(nil))
}

func TestWork(t *testing.T) {
	job := mustRead(t, shop+work)
	same(t, "operations", len(job.Work), 4)
	same(t, "the least", unplaced(job.Work[0]), trade.Operation{ID: "operation 1", Do: "saw it off", On: "bandsaw"})
	same(t, "where it was written", job.Work[1].Pos, at(26, 5))
	same(t, "all", unplaced(job.Work[1]), trade.Operation{
		ID: "faces", Do: "mill both faces", On: "mill", Makes: true, Cutter: "em12", Leave: length("0.2"),
		Centre: [2]unit.Quantity{length("100"), length("-50.5")}, Say: "keep the slide covered",
		Holding: &trade.Holding{
			Contacts: []trade.Contact{
				{ID: "fixed", Kind: trade.JawContact, At: place("0", "-20"), Towards: angle("90"), Width: length("100")},
				{ID: "moving", Kind: trade.JawContact, At: place("0", "20"), Towards: angle("270"), Width: length("80"), Clamping: force("5 kN")},
				{ID: "end", Kind: trade.StopContact, At: place("-40", "0"), Towards: angle("0")},
				{ID: "grub", Kind: trade.ScrewContact, At: place("40", "0"), Towards: angle("180"), Clamping: force("800 N")},
				{ID: "strap", Kind: trade.ClampContact, At: place("10", "10"), Clamping: force("4 kN"), Bolt: length("30"), Heel: length("90")},
			},
			Force: force("500 N"), At: place("0", "25"), Towards: angle("-0.5 rad"), Friction: 0.15,
		},
	})
	same(t, "apart", unplaced(job.Work[2]), trade.Operation{ID: "operation 3", Do: "take its slide off", Apart: "mill"})
	same(t, "back, and used at once", unplaced(job.Work[3]), trade.Operation{ID: "operation 4", Do: "put it back and bore", On: "mill", Back: "mill"})
}

// TestOrderOfWork: what is said of needs is told from what is not, and where
// coordinates are counted from.
func TestOrderOfWork(t *testing.T) {
	job := mustRead(t, shop+`work:
  - {id: late, do: drill it, on: mill, needs: [saw, operation 3]}
  - {id: saw, do: saw it, on: bandsaw, needs: []}
  - {do: take its slide off, apart: lathe}
  - {do: drill, on: mill, datum: {at: [1, -2.5], edge-finder: 6 mm, sides: [right, back], turned: 90}}
  - {do: bore, on: mill, datum: {at: [0, 0]}}
  - {do: put it back, back: lathe}
`)
	for i, want := range [][]string{{"saw", "operation 3"}, {}, nil} {
		same(t, "needs", job.Work[i].Needs, want)
	}
	datum := *job.Work[3].Datum
	same(t, "where the datum was written", datum.Pos, at(28, 34))
	datum.Pos = trade.Pos{}
	same(t, "datum", datum, trade.Datum{
		At: place("1", "-2.5"), Finder: length("6"), Sides: []trade.Side{trade.RightSide, trade.BackSide}, Turned: angle("90"),
	})
	same(t, "no edges", len(job.Work[4].Datum.Sides), 0)
}

func place(x, y string) [2]unit.Quantity { return [2]unit.Quantity{length(x), length(y)} }
