// Package results writes what the kernel has worked out as HTML: values in running
// text, ruled rows of working, cells of data tables, and the journal's lists.
//
// It knows no Markdown, no files and no settings, so that the browser build of a
// published page writes the very HTML that the program writes: a [Writer] is given a
// session, a style and what the page leaves out, and is asked for one line at a time.
package results
