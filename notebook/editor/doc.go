// Package editor is the language server: a journal's numbers, errors and functions in
// any editor that speaks the Language Server Protocol, version 3.17, over a pair of
// streams.
//
// A Server reads messages in one goroutine and answers them in another, one at a
// time and in their order. The text of an open file counts in place of what lies on
// disk; between keystrokes that come quicker than they are answered, only the last is
// worked out. Everything it knows of a journal it asks of the notebook and the kernel.
package editor
