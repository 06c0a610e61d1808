// Package calc is what a sum is made of: quantities with their physical
// dimension, the units of the boat shop, literals as people write them
// (2' 6 3/8", 451 mm, 5° 30', 1-10-5 in a table of offsets), plus-minus with its
// sensitivities, lists and records, and the text a person reads.
//
// A Value is passed by value. Its number is always in SI base units (metres,
// kilograms, seconds, kelvins, radians, currency units), so arithmetic never
// converts; units appear only where text comes in (ScanLiteral) and goes out
// (Style.Text). A Value of one dimension never silently turns into another:
// every operation that cannot mean anything returns an *Error.
//
// The package is pure: no clock, file, socket, goroutine or variable that changes.
package calc
