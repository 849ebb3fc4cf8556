package report

import (
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The JSON forms of what gives way: forces in N, torques in N·mm, stresses in MPa,
// lengths in mm, temperatures in K; null where the tables do not say.
type (
	givesWayJSON struct {
		Joint    string   `json:"joint"`
		Piece    string   `json:"piece"`
		Mode     string   `json:"mode"`
		LoadN    float64  `json:"load_n"`
		Margin   float64  `json:"margin"`
		Fuse     bool     `json:"fuse"`
		YieldN   *float64 `json:"yield_n"`
		MostN    *float64 `json:"most_n"`
		TorqueNM *float64 `json:"torque_n_mm,omitempty"`
		How      string   `json:"how"`
		Sources  []string `json:"sources"`
	}
	jointJSON struct {
		Safety   *float64   `json:"safety"`
		Screw    *screwJSON `json:"screw,omitempty"`
		Press    *pressJSON `json:"press,omitempty"`
		Verdict  []string   `json:"verdict"`
		Warnings []string   `json:"warnings"`
		Notes    []string   `json:"notes"`
		Cautions []string   `json:"cautions"`
	}
	spanJSON struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
	}
	screwJSON struct {
		Thread     string   `json:"thread"`
		StressArea float64  `json:"stress_area_mm2"`
		Full       float64  `json:"full_thread_mm"`
		ScrewShear float64  `json:"screw_shear_mm2"`
		NutShear   float64  `json:"nut_shear_mm2"`
		Enough     *float64 `json:"enough_mm"`

		Tightening *tighteningJSON `json:"tightening"`
		Spanner    float64         `json:"spanner_mm"`
		Hand       float64         `json:"hand_torque_n_mm"`
		HandPull   float64         `json:"hand_preload_n"`
	}
	tighteningJSON struct {
		Friction spanJSON `json:"friction"`
		Torque   spanJSON `json:"torque_n_mm"`
		Preload  spanJSON `json:"preload_n"`
		Undo     spanJSON `json:"undo_n_mm"`
		ByRule   float64  `json:"preload_by_rule_n"`
		Stress   float64  `json:"stress_mpa"`
	}
	pressJSON struct {
		Interference spanJSON `json:"interference_mm"`
		Pressure     spanJSON `json:"pressure_mpa"`
		OuterHoop    spanJSON `json:"outer_hoop_mpa"`
		OuterWorst   float64  `json:"outer_worst_mpa"`
		OuterYield   float64  `json:"outer_yield_mpa"`
		InnerWorst   float64  `json:"inner_worst_mpa"`
		InnerYield   float64  `json:"inner_yield_mpa"`
		Push         spanJSON `json:"push_n"`
		Torque       spanJSON `json:"torque_n_mm"`
		Heat         float64  `json:"heat_k"`
		Cool         float64  `json:"cool_k"`
		Allowance    float64  `json:"allowance_mm"`
	}
)

// waysToJSON lists the ways of all joints, each joint's in the order in which they
// give way.
func waysToJSON(answers []strength.Answer, view unit.View) []givesWayJSON {
	list := []givesWayJSON{}
	for _, a := range answers {
		for _, w := range a.Ways {
			list = append(list, givesWayJSON{
				Joint: a.Joint.ID, Piece: w.Piece, Mode: string(w.Mode), LoadN: w.Load, Margin: w.Margin, Fuse: w.Fuse,
				YieldN: number(w.Yield), MostN: number(w.Most), TorqueNM: number(w.Torque), How: w.How.Shown(view), Sources: listed(w.Sources),
			})
		}
	}
	return list
}

// jointsToJSON returns the rest of what was found of each joint, by its id.
func jointsToJSON(answers []strength.Answer, view unit.View) map[string]jointJSON {
	joints := map[string]jointJSON{}
	for _, a := range answers {
		joints[a.Joint.ID] = jointJSON{
			Safety: number(a.Safety), Screw: screwToJSON(a.Screw), Press: pressToJSON(a.Press),
			Verdict: told(a.Verdict, view), Warnings: told(a.Warnings, view), Notes: listed(a.Notes), Cautions: listed(a.Cautions),
		}
	}
	return joints
}

// listed makes an empty list of none, so that it prints as one.
func listed(texts []string) []string { return append([]string{}, texts...) }

func spanToJSON(s strength.Span) spanJSON { return spanJSON{s.Low, s.High} }

func screwToJSON(s *strength.Screw) *screwJSON {
	if s == nil {
		return nil
	}
	t := s.Tightening
	out := &screwJSON{
		Thread: s.Thread.Designation, StressArea: s.StressArea, Full: s.Full, ScrewShear: s.ScrewShear, NutShear: s.NutShear,
		Enough: number(s.Enough), Spanner: t.Spanner, Hand: t.Hand, HandPull: t.HandPull,
	}
	if t.Stated {
		out.Tightening = &tighteningJSON{
			Friction: spanToJSON(t.Friction), Torque: spanToJSON(t.Torque), Preload: spanToJSON(t.Preload), Undo: spanToJSON(t.Undo),
			ByRule: t.ByRule, Stress: t.Stress,
		}
	}
	return out
}

func pressToJSON(f *strength.Press) *pressJSON {
	if f == nil {
		return nil
	}
	return &pressJSON{
		Interference: spanToJSON(f.Interference), Pressure: spanToJSON(f.Pressure), OuterHoop: spanToJSON(f.OuterHoop),
		OuterWorst: f.OuterWorst, OuterYield: f.OuterYield, InnerWorst: f.InnerWorst, InnerYield: f.InnerYield,
		Push: spanToJSON(f.Push), Torque: spanToJSON(f.Torque), Heat: f.Heat, Cool: f.Cool, Allowance: f.Allowance,
	}
}
