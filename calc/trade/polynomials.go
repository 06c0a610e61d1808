package trade

import (
	"math"

	"scarph/calc/curve"
)

// poly is a polynomial by its coefficients, the constant first.
type poly []float64

func (p poly) at(u float64) float64 {
	v := 0.0
	for i := len(p) - 1; i >= 0; i-- {
		v = v*u + p[i]
	}
	return v
}

// slope returns the derivative.
func (p poly) slope() poly {
	d := make(poly, max(1, len(p)-1))
	for i := 1; i < len(p); i++ {
		d[i-1] = float64(i) * p[i]
	}
	return d
}

// primitive returns the integral from 0.
func (p poly) primitive() poly {
	q := make(poly, len(p)+1)
	for i, c := range p {
		q[i+1] = c / float64(i+1)
	}
	return q
}

func (p poly) times(q poly) poly {
	r := make(poly, len(p)+len(q)-1)
	for i, a := range p {
		for j, b := range q {
			r[i+j] += a * b
		}
	}
	return r
}

// turns returns where a polynomial of degree 3 or less turns between 0 and 1.
func (p poly) turns() []float64 {
	var c [4]float64
	copy(c[:], p)
	return rootsBetween(3*c[3], 2*c[2], c[1])
}

// rootsBetween returns the roots of a·u² + b·u + c between 0 and 1, rising.
func rootsBetween(a, b, c float64) []float64 {
	var found []float64
	add := func(u float64) {
		if u > 0 && u < 1 {
			found = append(found, u)
		}
	}
	disc := b*b - 4*a*c
	if disc <= 0 {
		if a == 0 && b != 0 {
			add(-c / b)
		}
		return found
	}
	// the sum that does not cancel gives one root, the product of roots the other
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	add(c / q)
	if a != 0 {
		add(q / a)
	}
	if len(found) == 2 && found[0] > found[1] {
		found[0], found[1] = found[1], found[0]
	}
	return found
}

// meets returns where a polynomial that only rises or only falls between two places
// has the value.
func (p poly) meets(value, from, to float64) float64 {
	if len(p) == 2 {
		return (value - p[0]) / p[1]
	}
	return root(func(u float64) float64 { return p.at(u) - value }, from, to)
}

// cubic returns the piece of a spline between two places inside one span, over u
// from 0 to 1.
func cubic(s *curve.Spline, from, to float64) poly {
	h := to - from
	a, b := s.At(from), s.At(to)
	bendA, bendB := s.Second(from)*h*h/6, s.Second(to)*h*h/6
	return poly{a, b - a - 2*bendA - bendB, 3 * bendA, bendB - bendA}
}
