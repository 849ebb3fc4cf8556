package report

import (
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON forms of what was meant. Values and wear are in mm, angles in
// degrees.
type (
	candidateJSON struct {
		Text    string  `json:"text"`
		Value   float64 `json:"value"`
		P       float64 `json:"p"`
		WearMM  float64 `json:"wear_mm"`
		Decided bool    `json:"decided"`
	}
	tellJSON struct {
		Between  [2]string `json:"between"`
		ReadToMM *float64  `json:"read_to_mm"`
		Text     string    `json:"text"`
	}
	systemJSON struct {
		System string  `json:"system"`
		Share  float64 `json:"share"`
	}
	setJSON struct {
		Sizes  []string `json:"sizes"`
		Stated []string `json:"stated"`
		P      float64  `json:"p"`
	}
	questionJSON struct {
		Size    string       `json:"size"`
		Answers []answerJSON `json:"answers"`
	}
	answerJSON struct {
		Text    string            `json:"text"`
		P       float64           `json:"p"`
		Settles map[string]string `json:"settles"`
	}
	quantumJSON struct {
		Step      string  `json:"step"`
		Sizes     int     `json:"sizes"`
		Kendall   float64 `json:"kendall"`
		Broadbent float64 `json:"broadbent"`
		Chance    float64 `json:"chance"`
	}
	meaningJSON struct {
		Systems  []systemJSON  `json:"systems"`
		Tied     []setJSON     `json:"tied"`
		Question *questionJSON `json:"question"`
		Quantum  *quantumJSON  `json:"quantum"`
	}
)

// WithMeant adds what the drawing seems to have said to the JSON of a result.
func WithMeant(r *adjust.Result, m *meant.Result) Addition {
	return func(out *resultJSON) {
		for i := range m.Sizes {
			s := &m.Sizes[i]
			size := out.Sizes[s.ID]
			size.Meant = candidatesToJSON(s, r.Size(s.ID).Dimension)
			size.NoRoundSize, size.OtherRound = number(s.NoRound), number(s.Unlisted())
			if s.Tied {
				size.Stated = number(s.Designer)
			}
			if s.Tell != nil {
				size.CannotTell = &tellJSON{Between: [2]string{s.Tell.First, s.Tell.Second}, ReadToMM: number(s.Tell.U), Text: say.Telling(r, s).Shown(inJob(r.Job))}
			}
			out.Sizes[s.ID] = size
		}
		out.Meaning = meaningToJSON(m)
		for _, text := range m.Warnings {
			out.Warnings = append(out.Warnings, warningJSON{Text: text.Shown(inJob(r.Job))})
		}
	}
}

func candidatesToJSON(s *meant.Size, d unit.Dimension) []candidateJSON {
	list := []candidateJSON{}
	for _, c := range s.Likely() {
		list = append(list, candidateJSON{Text: c.Text, Value: natural(c.Value, d), P: c.P, WearMM: c.Wear, Decided: s.Decided})
	}
	return list
}

func meaningToJSON(m *meant.Result) *meaningJSON {
	out := &meaningJSON{Systems: []systemJSON{}, Tied: []setJSON{}}
	for _, s := range m.Shares {
		out.Systems = append(out.Systems, systemJSON{System: s.System, Share: s.Mean})
	}
	for _, s := range m.Sets {
		out.Tied = append(out.Tied, setJSON{Sizes: s.Sizes, Stated: s.Designers, P: s.P})
	}
	if q := m.Question; q != nil {
		out.Question = &questionJSON{Size: q.Size}
		for _, a := range q.Answers {
			settles := map[string]string{}
			for _, s := range a.Settles {
				settles[s.ID] = s.Text
			}
			out.Question.Answers = append(out.Question.Answers, answerJSON{Text: a.Text, P: a.P, Settles: settles})
		}
	}
	if q := m.Quantum; q != nil {
		out.Quantum = &quantumJSON{Step: q.Step, Sizes: q.Sizes, Kendall: q.Phi, Broadbent: q.Lumped, Chance: q.Chance}
	}
	return out
}
