// Package kernel is time: which readings there are, what hangs on what, what
// moved, and what is already cut.
//
// A Session holds the entries of one journal. Every statement of an entry is a
// node of a graph: a named value (with all its readings, oldest first), a row, column or
// whole of a data table, or a line without a name (a check, an answer, a slot). Readings
// have a strength, and the latest strong one wins; evaluated as of an earlier entry, only the
// readings up to it count. Update takes entries as they are now, works out again only what
// hangs on what changed, and returns the Ripple: what moved, what did not, and which parts
// made are now off.
//
// The kernel knows no Markdown, HTML or HTTP, and reads no file or clock.
package kernel
