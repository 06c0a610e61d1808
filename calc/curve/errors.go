package curve

import (
	"errors"
	"strconv"
)

// ErrInLine says that points which should make a circle or a triangle stand in
// one straight line.
var ErrInLine = errors.New("the points stand in one straight line")

// TooFewError says that a curve was asked for through too few points.
type TooFewError struct{ Got, Want int }

func (e *TooFewError) Error() string {
	return strconv.Itoa(e.Got) + " points are given; at least " + strconv.Itoa(e.Want) + " are needed"
}

// UnequalError says that two lists which belong together differ in length.
type UnequalError struct{ Xs, Ys int }

func (e *UnequalError) Error() string {
	return strconv.Itoa(e.Xs) + " positions but " + strconv.Itoa(e.Ys) + " values"
}

// NotRisingError says that a position is not past the one before it; Index is
// the place of the later one, counted from 0.
type NotRisingError struct {
	Index         int
	Before, After float64
}

func (e *NotRisingError) Error() string {
	return "positions must rise: " + number(e.After) + " comes after " + number(e.Before)
}

// rising checks that xs and ys belong together, that there are at least want of
// them, and that the xs rise strictly.
func rising(xs, ys []float64, want int) error {
	if len(xs) != len(ys) {
		return &UnequalError{len(xs), len(ys)}
	}
	if len(xs) < want {
		return &TooFewError{len(xs), want}
	}
	for i := 1; i < len(xs); i++ {
		if !(xs[i] > xs[i-1]) {
			return &NotRisingError{i, xs[i-1], xs[i]}
		}
	}
	return nil
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
