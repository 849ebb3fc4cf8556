package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/make/lathe"
)

// The JSON form of dividing, in degrees of the table.
type (
	dividingJSON struct {
		*indexingJSON
		Others       []indexingJSON     `json:"others,omitempty"`
		Compound     []compoundJSON     `json:"compound,omitempty"`
		Differential []differentialJSON `json:"differential,omitempty"`
		Dial         *dialJSON          `json:"dial,omitempty"`
		Warnings     []string           `json:"warnings,omitempty"`
	}
	indexingJSON struct {
		Turns   int     `json:"turns"`
		Holes   int     `json:"holes"`
		Circle  int     `json:"circle"`
		Error   float64 `json:"error_deg"`
		Last    float64 `json:"error_last_deg,omitempty"`
		Counted float64 `json:"error_counted_deg,omitempty"`
	}
	compoundJSON struct {
		Moves []holesOnJSON `json:"moves"`
		Error float64       `json:"error_deg"`
		Last  float64       `json:"error_last_deg,omitempty"`
	}
	holesOnJSON struct {
		Holes  int `json:"holes"`
		Circle int `json:"circle"`
	}
	differentialJSON struct {
		For int `json:"for"`
		indexingJSON
		Ratio   string `json:"ratio"` // of the plate to the spindle
		Drivers []int  `json:"drivers"`
		Driven  []int  `json:"driven"`
	}
	dialJSON struct {
		Turns     int     `json:"turns"`
		Divisions float64 `json:"divisions"`
	}
)

// DividingJSON writes the best plain way as one JSON object, with the others in
// it.
func DividingJSON(w io.Writer, d *lathe.Dividing) error {
	out := dividingJSON{Warnings: d.Warnings}
	for i, way := range d.Plain {
		one := indexingToJSON(way)
		if i == 0 {
			out.indexingJSON = &one
		} else {
			out.Others = append(out.Others, one)
		}
	}
	for _, way := range d.Compound {
		moves := []holesOnJSON{holesOnJSON(way.First), holesOnJSON(way.Second)}
		out.Compound = append(out.Compound, compoundJSON{moves, way.Error * degreesPerRadian, way.Last * degreesPerRadian})
	}
	for _, way := range d.Differential {
		out.Differential = append(out.Differential, differentialJSON{
			way.For, indexingToJSON(way.Plain), ratioText(way.Ratio), way.Drivers, way.Driven,
		})
	}
	if d.Dial.Known() {
		out.Dial = &dialJSON{d.Dial.Turns, d.Dial.Divisions}
	}
	return encode(w, out)
}

func indexingToJSON(i lathe.Indexing) indexingJSON {
	return indexingJSON{i.Turns, i.Holes, i.Circle, i.Error * degreesPerRadian, i.Last * degreesPerRadian, i.Counted * degreesPerRadian}
}
