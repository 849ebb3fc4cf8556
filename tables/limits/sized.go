package limits

import (
	"fmt"
	"regexp"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Sized is a nominal size with a tolerance class or a fit.
type Sized struct {
	Size unit.Quantity
	Code Code // of a single hole or shaft
	Fit  *Fit // nil of a single hole or shaft
}

// sizedPattern parts the size from the code. The blank between them may be
// missing.
var sizedPattern = regexp.MustCompile(`^\s*[⌀Øø]?\s*(.*?(mm|in|")?)\s*([A-Za-z]+ ?[0-9]+(?:\s*/\s*[A-Za-z]+ ?[0-9]+)?)\s*$`)

// ParseSized reads a nominal size with a class or a fit: 50 H8, 50 H8/f7, 1.5 in
// RC5, 1 1/2 in RC5. A size without a unit is in the unit bare, but a fit of
// ANSI B4.1 is only in inches where that is written or bare is Inch: anything
// else is an error. Whether the tables have the size is not looked at.
func ParseSized(text string, bare unit.Unit) (Sized, error) {
	parts := sizedPattern.FindStringSubmatch(text)
	if parts == nil || parts[1] == "" {
		return Sized{}, fmt.Errorf("%q: a size and its class or fit are written 50 H8, 50 H8/f7 or 1.5 in RC5", text)
	}
	size, written, code := parts[1], parts[2] != "", parts[3]
	s, err := parseClass(code)
	if err != nil {
		return Sized{}, err
	}
	if s.Fit != nil && s.Fit.Inch() && !written && bare != unit.Inch {
		return Sized{}, fmt.Errorf("%q: %s is a fit in inches: write the unit, %s in %s", text, s.Fit, size, s.Fit)
	}
	if s.Size, err = unit.ParseLength(size, bare); err != nil {
		return Sized{}, err
	}
	if s.Size.Sign() <= 0 {
		return Sized{}, fmt.Errorf("%q: a nominal size is greater than 0", size)
	}
	return s, nil
}

// parseClass reads a fit or a tolerance class.
func parseClass(text string) (Sized, error) {
	if strings.Contains(text, "/") || classPattern.MatchString(strings.ToUpper(text)) {
		fit, err := ParseFit(text)
		return Sized{Fit: &fit}, err
	}
	code, err := ParseCode(text)
	return Sized{Code: code}, err
}
