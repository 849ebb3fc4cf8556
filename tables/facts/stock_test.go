package facts

import (
	"math"
	"testing"
)

func TestTablesOfStockHaveEveryRowWithItsSource(t *testing.T) {
	check := func(table string, rows, want int, sources []string) {
		if rows != want {
			t.Errorf("%s: %d rows, want %d", table, rows, want)
		}
		for i, source := range sources {
			if source == "" {
				t.Errorf("%s: row %d lacks its source", table, i+1)
			}
		}
	}
	var drills, balls, keys []string
	for _, d := range Drills() {
		drills = append(drills, d.Source)
	}
	for _, b := range Balls() {
		balls = append(balls, b.Source)
	}
	for _, k := range Keys() {
		keys = append(keys, k.Source)
	}
	check("drills", len(drills), 399, drills)
	check("balls", len(balls), 91, balls)
	check("keys", len(keys), 81, keys)
}

// TestTheOtherColumnAgrees holds the exact figure of a row against the one the
// table rounds: to half a unit of its last place, or half a micron.
func TestTheOtherColumnAgrees(t *testing.T) {
	check := func(name string, got float64, r row, metric bool) {
		want, half := r.number("mm"), 0.6e-3
		if metric {
			want, half = 25.4*r.number("inch"), 25.4*0.6e-5
			if r["series"] == "metric" && got > 25 {
				half = 25.4 * 0.6e-4
			}
		}
		if math.Abs(got-want) > half {
			t.Errorf("%s: %.5f mm, the other column says %.5f", name, got, want)
		}
	}
	raw := rows(drills)
	for i, d := range Drills() {
		check("drill "+d.Designation, d.Diameter, raw[i], d.Series == "metric")
	}
	raw = rows(balls)
	for i, b := range Balls() {
		check("ball "+b.Designation, b.Diameter, raw[i], b.Metric)
	}
}

// TestSomeDrillsBallsAndKeys has figures known beside the tables: number,
// letter and fraction drills of ASME B94.11M (from memory), the 15/32 ball, the
// 8 by 7 key for shafts over 22 to 30 mm of DIN 6885-1 (from memory), and the
// 3/16 square key for shafts over 1/2 to 3/4 in of BS 46 (from memory).
func TestSomeDrillsBallsAndKeys(t *testing.T) {
	drill := map[string]float64{"#7": 0.201, "#80": 0.0135, "F": 0.257, "Z": 0.413, "9/64": 9.0 / 64}
	for _, d := range Drills() {
		if want, ok := drill[d.Designation]; ok {
			delete(drill, d.Designation)
			if math.Abs(d.Diameter-25.4*want) > 1e-9 {
				t.Errorf("drill %s: %.5f mm, want %.5f", d.Designation, d.Diameter, 25.4*want)
			}
		}
	}
	if len(drill) > 0 {
		t.Errorf("drills missing from the table: %v", drill)
	}
	for _, b := range Balls() {
		if b.Designation == "15/32" && math.Abs(b.Diameter-11.90625) > 1e-9 {
			t.Errorf("15/32 ball: %.5f mm", b.Diameter)
		}
	}
	metric, inch := Keys()[5], Keys()[28]
	if metric.Over != 22 || metric.To != 30 || metric.Width != 8 || metric.Height != 7 || !metric.Metric {
		t.Errorf("sixth key: %+v", metric)
	}
	if inch.Over != 12.7 || inch.To != 19.05 || inch.Width != 4.7625 || inch.Metric {
		t.Errorf("twenty-ninth key: %+v", inch)
	}
}
