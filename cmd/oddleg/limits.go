package main

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// limitsCommand gives the limits of a size with a tolerance class or a fit.
type limitsCommand struct {
	Size []string `arg:"" help:"A size and its class or fit: '50 H8', '50 H8/f7', '1 1/2 in RC5'. A bare number is in mm."`
	JSON bool     `name:"json" help:"Print the answer as JSON (mm)."`
}

// Run prints the limits.
func (c *limitsCommand) Run(s streams) error {
	a, err := limitsOf(strings.Join(c.Size, " "))
	if err != nil {
		var g given
		g.wrong("%v", err)
		return g.complain(s, c.JSON)
	}
	return a.tell(s, c.JSON)
}

// limitsOf looks up what was written.
func limitsOf(text string) (answer, error) {
	asked, err := limits.ParseSized(text, unit.Millimetre)
	if err != nil {
		return answer{}, err
	}
	if asked.Fit != nil {
		pair, err := asked.Fit.At(asked.Size.Inside())
		if err != nil {
			return answer{}, err
		}
		return answer{
			says: say.LimitsOfFit(asked.Size, *asked.Fit, pair),
			json: func(w io.Writer) error { return report.LimitsOfFitJSON(w, pair) },
		}, nil
	}
	in, err := limits.Of(asked.Size.Inside(), asked.Code)
	if err != nil {
		return answer{}, err
	}
	return answer{
		says: say.Limits(asked.Size, asked.Code, in),
		json: func(w io.Writer) error { return report.LimitsJSON(w, asked.Code, in) },
	}, nil
}
