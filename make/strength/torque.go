package strength

import "math"

// screwTorque returns the torque per N of pull that turns a screw against the
// load, mm, without the friction under its head:
//
//	d2/2 · (l + π·μ·d2/cos α) / (π·d2 - μ·l/cos α)
//
// with d2 the mean diameter of the thread, l its lead, both in mm, α the angle of
// its flanks and μ its friction. To first order this is l/2π + 0.58·μ·d2 for
// flanks of 60°, as in ISO 16047. A negative lead gives the torque that turns it
// with the load: what undoes it. Source: the wedge on an inclined plane, as in any
// textbook of machine design.
func screwTorque(mean, lead, flank, friction float64) float64 {
	f := friction / math.Cos(flank)
	return mean / 2 * (lead + math.Pi*f*mean) / (math.Pi*mean - f*lead)
}

// collarTorque returns the torque per N of pull that friction takes under a head,
// a nut or a collar of this mean diameter, mm: μ·D/2.
func collarTorque(mean, friction float64) float64 { return friction * mean / 2 }

// rulePreload is the preload of a torque by the rule of thumb T = 0.2·F·d: what
// most charts have (common practice, no source).
func rulePreload(torque, major float64) float64 { return torque / (0.2 * major) }

// bothPulledAndTwisted returns the stress of a screw with this stress area, per N
// of pull, while it is turned by twist N·mm per N: √(σ² + 3τ²), by von Mises. The
// twist is spread as times·twist/(π·d³) over the circle of the stress area: times
// is 16 at the skin of an elastic bar and 12 where all of it yields.
func bothPulledAndTwisted(area, twist, times float64) float64 {
	diameter := math.Sqrt(4 * area / math.Pi)
	pull, shear := 1/area, times*twist/(math.Pi*math.Pow(diameter, 3))
	return math.Sqrt(pull*pull + 3*shear*shear)
}

const (
	elasticTwist = 16
	plasticTwist = 12
)
