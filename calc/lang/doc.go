// Package lang is the language inside a calc block: one statement a line.
//
//	drawn  beam = 4' 7 1/2"            # as drawn on the plans
//	frame_spacing = run / (frames - 1)
//	part thwart: 2 of 3/4" by 7" by inside - 1/8" in larch, within 1/16"
//	check beam < 4' 2"
//
// A line is cut into tokens, the trade's literals among them (lex.go); the head of the
// line tells its kind, and each kind has a file (stmt_*.go) that cuts out its
// expressions. The tokens of an expression are the operands and signs (terms.go) that
// the grammar reads (grammar.go), and are compiled to closures over a Frame (compile.go).
// Who gives a name its value, and when, is not known here: an Expr lists what it Needs,
// and the caller fills the Frame.
package lang
