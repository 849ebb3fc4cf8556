package inspect

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// How metal comes off (common practice, no source).
const (
	risk     = 0.01 // chance of going past the limit that one cut may have
	thinnest = 0.02 // mm on the diameter, or off a face: the least that a tool still cuts and does not rub
	byEye    = 2    // parts of a division that a dial is set to by eye
	spring   = 0.03 // standard deviation of what a cut takes, as a part of it: the tool springs
)

// Take is what is still to come off a size, or out of it, before it is right.
// Amounts are on the diameter for what is round.
type Take struct {
	Off   float64 // to the middle of the limits; 0 where nothing is to be done
	Now   float64 // of it in the next cut, after which it is read again; 0 where the next cut could spoil it
	Cuts  int     // that it needs, the next one counted
	Past  float64 // chance that the next cut goes past the limit
	Gone  bool    // it is past the limit already
	Round bool    // amounts are on the diameter
	Dial  *Dial   // nil where no dial is known that moves it, and what it counts
	Mind  string
}

// Dial is an amount in divisions of a dial at hand.
type Dial struct {
	Machine  string
	Slide    string
	Division float64 // mm that one takes off, on the diameter for what is round
	Now      float64 // divisions for the next cut
	Counts   trade.DialReads
}

// take says what is to come off a size that is still in the machine.
func (p *proof) take(v *Verdict) *Take {
	kind := v.Made.Size.Kind
	t := &Take{Round: kind == trade.Diameter || kind == trade.Radius}
	scale := 1.0 // from the size to what comes off it
	if kind == trade.Radius {
		scale = 2
	}
	w := cutting{toGo: scale * (v.Value - v.Made.Target), past: scale * (v.Value - v.Limits.Low), u: scale * v.U}
	if grow(v.Made.Size) {
		w = cutting{toGo: scale * (v.Made.Target - v.Value), past: scale * (v.Limits.High - v.Value), u: scale * v.U}
	}
	dial := p.dial(t.Round)
	if dial != nil {
		w.step = dial.Division
	}
	t.plan(&w, v.Says == Conforming)
	switch {
	case t.Now == 0:
	case dial != nil:
		dial.Now = t.Now / dial.Division
		t.Dial = dial
	case t.Round:
		t.Mind = "the job does not say whether the dial counts diameter or radius: the amount is on the diameter; on a dial that counts radius it is half"
	}
	return t
}

// grow reports whether cutting makes a size larger.
func grow(size *trade.NewSize) bool {
	surface := surfaceOf(size)
	return surface == trade.Inside || size.Kind == trade.Depth && surface != trade.Outside
}

// cutting is a size on its way, in the direction in which metal comes off.
type cutting struct {
	toGo float64 // to the target
	past float64 // to the limit beyond it
	u    float64 // standard uncertainty of the last reading
	step float64 // division of the dial, as it counts on this size; 0 for none
}

// chance returns that of a cut going past the limit.
func (c *cutting) chance(cut float64) float64 {
	return normal((cut - c.past) / math.Hypot(c.u, math.Hypot(spring*cut, c.step/math.Sqrt(12))))
}

// safe returns the largest cut up to one wanted whose risk is bearable, as the dial
// can be set; 0 where even the thinnest is too much.
func (c *cutting) safe(wanted float64) float64 {
	const hair = 1e-9 // mm: so near the thinnest is as thick
	if cut := c.onDial(c.most(wanted)); cut > thinnest-hair {
		return cut
	}
	return 0
}

// most returns the largest cut up to one wanted whose risk is bearable.
func (c *cutting) most(wanted float64) float64 {
	if c.chance(wanted) <= risk {
		return wanted
	}
	in, out := 0.0, wanted
	for range 50 { // halvings: to the last bit
		if cut := (in + out) / 2; c.chance(cut) <= risk {
			in = cut
		} else {
			out = cut
		}
	}
	return in
}

// onDial returns a cut in half divisions of the dial: the nearest number of them
// where its risk is bearable, else the next smaller.
func (c *cutting) onDial(cut float64) float64 {
	if c.step == 0 {
		return cut
	}
	part := c.step / byEye
	if near := math.Round(cut/part) * part; c.chance(near) <= risk {
		return near
	}
	return math.Floor(cut/part) * part
}

// plan says what to cut. One cut goes to the target where that is safe; else half
// of the way, or as much as leaves a cut for the tool to bite into, and then it is
// read again.
func (t *Take) plan(c *cutting, conforms bool) {
	switch {
	case c.past < 0:
		t.Gone = true
		return
	case conforms || c.toGo <= 0:
		return
	}
	t.Off, t.Now = c.toGo, c.next()
	if t.Now == 0 {
		t.Mind = "the next cut could spoil it: read it more closely first, or ease it with a file or a stone and read it often"
		return
	}
	t.Past = c.chance(t.Now)
	for left, cut := *c, t.Now; cut > 0 && t.Cuts < mostCuts; cut = left.next() {
		t.Cuts++
		left.toGo, left.past = left.toGo-cut, left.past-cut
		if left.toGo < thinnest {
			break
		}
	}
}

// mostCuts is how many cuts are counted ahead.
const mostCuts = 50

// next returns the next cut, 0 where none is safe.
func (c *cutting) next() float64 {
	if all := c.safe(math.Max(c.toGo, thinnest)); all > c.toGo-thinnest {
		return all
	}
	if c.toGo < 2*thinnest {
		return 0
	}
	return c.safe(math.Min(c.toGo/2, c.toGo-thinnest))
}

// dial returns the dial that moves the tool: of the machine that the part is made
// on, across for what is round and along for what is not; and what one division
// takes off; nil where none is known.
func (p *proof) dial(round bool) *Dial {
	m := p.machine()
	if m == nil {
		return nil
	}
	for i := range m.Dials {
		d := &m.Dials[i]
		if strings.Contains(strings.ToLower(d.Slide), "cross") != round {
			continue
		}
		dial := &Dial{Machine: m.ID, Slide: d.Slide, Division: d.Division.Inside(), Counts: d.Reads}
		switch {
		case round && d.Reads == trade.ReadsNothing:
			return nil
		case round && d.Reads == trade.ReadsRadius:
			dial.Division *= 2
		}
		return dial
	}
	return nil
}

// machine returns the machine that the part is made on, nil where none is named
// and the shop has not just one that has dials.
func (p *proof) machine() *trade.Machinery {
	for i := range p.Job.Work {
		if o := &p.Job.Work[i]; o.Makes && o.On != "" {
			return p.Job.Machinery(o.On)
		}
	}
	var only *trade.Machinery
	for i := range p.Job.Shop {
		if m := &p.Job.Shop[i]; len(m.Dials) > 0 {
			if only != nil {
				return nil
			}
			only = m
		}
	}
	return only
}
