// Package asjson writes results for programs: objects with the keys that are
// agreed, lengths in mm, angles in degrees, never rounded for show.
package asjson
