package reckon_test

import (
	"context"
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
)

// A job needs no file. A worn hole was read with a bore gauge, whose zero is good to
// a standard uncertainty of 0.003 mm and each reading about it to 0.004 mm; a new pin
// shall go into it with 0.02 to 0.08 mm of play. By hand: √(3² + 4²) = 5 µm, and the
// pin is aimed at the middle of the play, 20.12 mm - 0.05 mm.
func Example() {
	job := &trade.Job{
		Name:  "Pin for a worn hole",
		Units: unit.Millimetre,
		Instruments: []trade.Instrument{
			{ID: "gauge", Kind: trade.BoreGauge, Zero: mm("0.003"), Repeat: mm("0.004")},
		},
		Sizes: []trade.Size{{ID: "hole", Kind: trade.Diameter, Surface: trade.Inside}},
		Readings: []trade.Reading{{
			ID: "a", By: "inside", Of: []trade.Arg{{Role: "size", ID: "hole"}}, With: "gauge",
			Saw: []trade.Seen{{X: mm("20.12")}},
		}},
		Part: &trade.Part{
			Name: "Pin", Kind: trade.TurnedPart, Quantity: 1,
			Sizes: []trade.NewSize{{
				ID: "shank", Kind: trade.Diameter, From: trade.GoesIn, Of: trade.Formula{Text: "hole"},
				Clearance: unit.Range{Low: mm("0.02"), High: mm("0.08")},
			}},
		},
	}
	found, err := reckon.Job(context.Background(), job, 1)
	if err != nil {
		fmt.Println(err) // what is not sound in the job
		return
	}
	hole := found.Result.Sizes[0]
	fmt.Printf("the hole is %.3f mm, u = %.3f mm\n", hole.Value, hole.U)
	fitted, err := found.Fitted()
	if err != nil {
		fmt.Println(err)
		return
	}
	shank := fitted.Made.Of("shank")
	fmt.Printf("make the shank to %.2f mm\n", shank.Target)

	job.Readings[0].Of[0].ID = "hoel"
	_, err = reckon.Job(context.Background(), job, 1)
	fmt.Println(err)
	// Output:
	// the hole is 20.120 mm, u = 0.005 mm
	// make the shank to 20.07 mm
	// size in the roles of reading "a": unknown size or piece "hoel"; did you mean "hole"?
}

// mm returns a length as it is written.
func mm(text string) unit.Quantity {
	length, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return length
}
