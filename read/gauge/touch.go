package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// TouchCircle returns the misclosure in mm of one touch of a circle, the
// stylus's middle read at (x, y):
//
//	sqrt((x - x0)² + (y - y0)²) - D/2 - S·d/2
//
// a holds x0, y0, the circle's diameter D, the stylus's d, and the side S: 1
// outside, -1 inside.
func TouchCircle(x, y float64, a Args) grad.Number {
	x0, y0, circle, stylus, side := a[0], a[1], a[2], a[3], a[4]
	dx, dy := grad.Const(x).Sub(x0), grad.Const(y).Sub(y0)
	away := dx.Sq().Add(dy.Sq()).Sqrt()
	return away.Sub(touchedPath(circle, stylus, side))
}

// touchedPath is the radius of the circle that the stylus's middle runs on.
func touchedPath(circle, stylus, side grad.Number) grad.Number {
	return circle.Add(side.Mul(stylus)).Half()
}

// TouchLine returns the misclosure in mm of one touch of the line
// x·cos β + y·sin β = p, the stylus's middle read at (x, y):
//
//	x·cos β + y·sin β - p - S·d/2
//
// a holds β in radians, p, the stylus's diameter d, and the side S: 1 where the
// stylus lies away from the origin of p, -1 on the other side.
func TouchLine(x, y float64, a Args) grad.Number {
	beta, p, stylus, side := a[0], a[1], a[2], a[3]
	away := beta.Cos().Times(x).Add(beta.Sin().Times(y)).Sub(p)
	return away.Sub(side.Mul(stylus).Half())
}

// NearestOnCircle returns the point nearest to (x, y) on the path of a stylus
// that touches a circle: what a touch there should have read. v holds the
// values of TouchCircle's Args. From the very centre it goes along the x axis.
func NearestOnCircle(x, y float64, v []float64) (px, py float64) {
	x0, y0, path := v[0], v[1], (v[2]+v[4]*v[3])/2
	direction := math.Atan2(y-y0, x-x0)
	return x0 + path*math.Cos(direction), y0 + path*math.Sin(direction)
}

// NearestOnLine returns the point nearest to (x, y) on the path of a stylus
// that touches a line. v holds the values of TouchLine's Args.
func NearestOnLine(x, y float64, v []float64) (px, py float64) {
	c, s := math.Cos(v[0]), math.Sin(v[0])
	off := x*c + y*s - v[1] - v[3]*v[2]/2
	return x - off*c, y - off*s
}
