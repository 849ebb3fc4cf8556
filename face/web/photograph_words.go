package web

import (
	"errors"
	"fmt"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// altText says what a picture shows, for who cannot see it.
func altText(p record.Photograph) string {
	if p.Note == "" {
		return "photograph of " + p.When.Local().Format("2 January 2006")
	}
	return p.Note
}

// pinsText says how many pins there are.
func pinsText(p record.Photograph) string {
	switch len(p.Pins) {
	case 0:
		return ""
	case 1:
		return "1 pin"
	}
	return fmt.Sprintf("%d pins", len(p.Pins))
}

// figureOf is what a size came to.
func figureOf(sizes []figure, id string) string {
	for _, f := range sizes {
		if f.Name == id && f.Half != "" {
			return f.Value + " ± " + f.Half
		}
		if f.Name == id {
			return f.Value
		}
	}
	return "no longer a size of this job"
}

// placeText says in words where a pin is.
func placeText(p record.Pin) string {
	return fmt.Sprintf("%.0f across, %.0f down", 100*p.X, 100*p.Y)
}

// isFault reports whether an error is about what the user gave.
func isFault(err error) bool {
	var faults trade.Faults
	return errors.As(err, &faults)
}
