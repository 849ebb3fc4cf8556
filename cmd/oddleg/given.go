package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/report"
)

// machineFlags say which machine a part is from.
type machineFlags struct {
	Built   int    `help:"Year in which the machine was built." placeholder:"1938"`
	Country string `help:"Country in which it was built: GB, US, DE ..." placeholder:"GB"`
}

// The years in which a machine may have been built.
const (
	firstMachines = 1750
	lastMachines  = 2100
)

func (f machineFlags) machine(g *given) trade.Machine {
	if f.Built != 0 && (f.Built < firstMachines || f.Built > lastMachines) {
		g.wrong("--built %d: a year from %d to %d is wanted", f.Built, firstMachines, lastMachines)
	}
	return trade.Machine{Built: f.Built, Country: f.Country}
}

// given reads what was written on the command line and gathers what is wrong
// with it, so that all of it is told at once.
type given struct {
	faults trade.Faults
}

func (g *given) wrong(format string, args ...any) { g.faults.Add(trade.Pos{}, format, args...) }

// length reads a flag as a positive length in mm, 0 where it was not given.
func (g *given) length(flag, text string) float64 {
	return g.positive(flag, text, func(text string) (unit.Quantity, error) { return unit.ParseLength(text, unit.Millimetre) })
}

// pitch reads a flag as a pitch in mm, 0 where it was not given.
func (g *given) pitch(flag, text string) float64 {
	return g.positive(flag, text, func(text string) (unit.Quantity, error) { return unit.ParsePitch(text, unit.Millimetre) })
}

// angle reads a flag as an angle in radians, 0 where it was not given. Only a
// half angle may be written as a taper.
func (g *given) angle(flag, text string, taper bool) float64 {
	return g.positive(flag, text, func(text string) (unit.Quantity, error) {
		q, err := unit.ParseAngle(text)
		if err == nil && q.IsTaper() && !taper {
			err = errors.New("an angle is wanted here, not a taper")
		}
		return q, err
	})
}

func (g *given) positive(flag, text string, parse func(string) (unit.Quantity, error)) float64 {
	if text == "" {
		return 0
	}
	q, err := parse(text)
	switch {
	case err != nil:
		g.wrong("%s: %v", flag, err)
	case q.Sign() <= 0:
		g.wrong("%s: %q is not greater than 0", flag, text)
	default:
		return q.Inside()
	}
	return 0
}

// measured returns a size with this standard uncertainty, not given where the
// flag was not.
func measured(value, u float64) series.Measured {
	if value == 0 {
		return series.Measured{}
	}
	return series.Measured{Value: value, U: u}
}

// counted reads "5=27.5mm": a whole number and a length.
func (g *given) counted(flag, text, example string) (n int, mm float64) {
	before, after, found := strings.Cut(text, "=")
	n, err := strconv.Atoi(strings.TrimSpace(before))
	if !found || err != nil || n < 1 {
		g.wrong("%s: %q: a whole number, = and a length are wanted: %s", flag, text, example)
		return 0, 0
	}
	return n, g.length(flag, strings.TrimSpace(after))
}

// wear reads how much a surface is thought to have worn, in mm.
func (g *given) wear(text string) float64 {
	switch trade.Wear(text) {
	case trade.NoWear:
		return 0
	case trade.LightWear:
		return 0.03
	case trade.HeavyWear:
		return 0.25
	}
	return g.length("--wear (none, light, heavy or a length)", text)
}

// complain tells everything that is wrong, nothing where nothing is.
func (g *given) complain(s streams, asJSON bool) error {
	if len(g.faults) == 0 {
		return nil
	}
	if asJSON {
		if err := report.FaultsJSON(s.out, g.faults); err != nil {
			return err
		}
		return errReported
	}
	for _, f := range g.faults {
		fmt.Fprintf(s.complain, "oddleg: %s\n", f.Text)
	}
	return errReported
}
