// Package export writes flat shapes for those who cut by machine: as DXF, release 12
// in ASCII, and as SVG in millimetres or inches, both at true size. The numbers are
// those of the shape to a ten-thousandth of the unit, y up in DXF as in the shop, y
// down in SVG as its standard has it.
//
// DXF has no unit of its own: a program that opens the file must be told whether it
// is in millimetres or in inches, so the file says so in a comment.
package export
