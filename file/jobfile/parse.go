package jobfile

import (
	"errors"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// parseTemperature reads a plain number with or without its unit, °C.
func parseTemperature(text string) (unit.Quantity, error) {
	number, _ := strings.CutSuffix(text, "C")
	number, _ = strings.CutSuffix(number, "°")
	q, err := unit.ParseNumber(strings.TrimRight(number, " "))
	if err != nil {
		return q, &unit.SyntaxError{Text: text, Column: 1, Want: "a temperature is written 23 C"}
	}
	return q, nil
}

// parseChance reads a plain number with or without a percent sign.
func parseChance(text string) (unit.Quantity, error) {
	number, _ := strings.CutSuffix(text, "%")
	q, err := unit.ParseNumber(number)
	var wrong *unit.SyntaxError
	if errors.As(err, &wrong) {
		return q, &unit.SyntaxError{Text: text, Column: wrong.Column, Want: "a chance is written 0.99 or 99 %"}
	}
	return q, err
}

// parseRatio reads a plain number as a ratio.
func parseRatio(text string) (unit.Quantity, error) {
	return reworded(unit.ParseNumber, text, "a ratio is written 1/2, 2 or 1.5")
}

// reworded reads a text, and says of a wrong one what is wanted in these words.
func reworded(read quantityReader, text, want string) (unit.Quantity, error) {
	q, err := read(text)
	var wrong *unit.SyntaxError
	if errors.As(err, &wrong) {
		return q, &unit.SyntaxError{Text: text, Column: wrong.Column, Want: want}
	}
	return q, err
}

// parseDirection reads an angle that is no taper.
func parseDirection(text string) (unit.Quantity, error) {
	const want = "a direction is an angle from the x axis: 90 deg, or 90"
	q, err := reworded(unit.ParseAngle, text, want)
	if err == nil && q.IsTaper() {
		return unit.Quantity{}, &unit.SyntaxError{Text: text, Column: 1, Want: want}
	}
	return q, err
}
