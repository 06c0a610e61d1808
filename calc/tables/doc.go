// Package tables is the shop's shelf of published reference tables: woods, screws,
// nails, wire gauges, lumber sizes, plywood, water, planking screws, equilibrium
// moisture, the capacity rules that were read, and rules of thumb.
//
// A table is a CSV file under data, embedded in the program. A row is one figure:
// the item it belongs to, what it is, its value and unit, where it is published,
// how it was come by, and a remark that has to come with it. How is one of
//
//	seen         read in a copy of the source
//	derived      worked out from figures or a formula of the source
//	from memory  recalled from the source and not read again
//
// Items are found under the names people use, in either order ("white oak",
// "oak, white"), with the table's aliases; a name that fits several items is
// refused with the list of them, and a mistyped one with the nearest.
//
// The files are read when first asked for and never change afterwards.
package tables
