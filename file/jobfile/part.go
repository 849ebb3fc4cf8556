package jobfile

import (
	"errors"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var partKeys = []string{
	"name", "kind", "material", "quantity", "holds", "chance", "revision",
	"sizes", "stacks", "mates", "shape",
}

// mostParts is the largest number of parts of one sort.
const mostParts = 100_000

// readPart reads what is to be made. Its sizes come before what names them.
func (r *reader) readPart(f fields) {
	if !f.has("part") {
		return
	}
	p := r.fields(f.at("part"), "part", partKeys...)
	if p.absent() {
		return
	}
	p.need("kind")
	r.job.Part = &trade.Part{
		Name:     r.job.Name,
		Kind:     trade.PartKind(p.word("kind", words(trade.PartKinds))),
		Material: r.material(p, "material"),
		Quantity: max(1, p.whole("quantity", 1, mostParts)),
		Holds:    p.quantity("holds", r.length, positive),
		Chance:   p.chance("chance"),
		Revision: p.text("revision"),
		Pos:      f.keys["part"].pos,
	}
	if name := p.text("name"); name != "" {
		r.job.Part.Name = name
	}
	r.readNewSizes(p)
	r.partNames = append(r.madeNames(), r.names...)
	r.readStacks(p)
	r.readMates(p)
	r.readShape(p)
}

// The chances that can be promised.
const (
	leastChance = 0.5
	mostChance  = 0.9999
)

// chance returns the chance under the key, a plain number or a percentage; 0
// if there is none.
func (f fields) chance(key string) float64 {
	value := f.quantity(key, parseChance, positive)
	if !value.Given() {
		return 0
	}
	chance := value.Inside()
	if strings.HasSuffix(f.at(key).text, "%") {
		chance /= 100
	}
	if chance < leastChance || chance > mostChance {
		f.r.fault(f.at(key), "%s is %s; a chance is from %g to %g, or from 50 %% to 99.99 %%",
			f.about(key), quote(f.at(key).text), leastChance, mostChance)
		return 0
	}
	return chance
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
