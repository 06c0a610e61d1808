// Package markdown reads the Markdown of a journal and writes its HTML.
//
// Reading finds what the rest of the program works on: sections that begin
// with a date, fenced blocks of calc statements, slots (an expression in
// braces in running text), data tables (their corner cell ends in a colon),
// images, headings and links. Each carries its span, two byte offsets into
// the file as it lies on disk, exact under a byte order mark, front matter,
// CRLF line ends and tabs, so that a change can be written back to those
// bytes and no others.
//
// Writing asks a Results for the HTML of a block, a slot or a cell: this
// package knows where a number stands and nothing of how it is worked out.
//
// The dialect is CommonMark with tables, task lists, strikethrough, footnotes
// and definition lists. Raw HTML is kept only where it is on a short list of
// harmless tags and balanced; all else is shown as the text it is.
package markdown
