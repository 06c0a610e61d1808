// Package curve is the mathematics of battens, arcs and section lines in plain
// float64, whatever the unit: natural cubic splines, paths through points,
// broken lines, circles, least squares, and the judging of stations by leaving
// one out. It knows nothing of quantities; callers keep one unit throughout.
//
// A natural cubic spline is the shape of a thin batten held by pins that let it
// turn, with free ends and small slope: the curve of least bending energy
// through the points.
package curve
