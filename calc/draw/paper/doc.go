// Package paper puts drawings on paper at true size, as PDF: flat shapes tiled over
// sheets that are joined at crossing marks, and wall sheets of any table, to be read
// from across the shop.
//
// A printer that scales spoils wood. So every sheet of a pattern carries bars of
// 100 mm, across and upright, and one of 4 in, and the words "measure this before
// you cut"; and every sheet of either kind carries its date and revision letter.
//
// Lengths are millimetres, but for the shapes themselves, which are in metres. The
// package is pure: the same input gives the same bytes.
package paper
