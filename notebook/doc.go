// Package notebook is the journal as people keep it: a folder of Markdown files,
// read into entries and statements for the kernel, shown as HTML with the kernel's
// results, and written back byte for byte.
//
// Open gives a Notebook, which holds the files as they lie on disk and the kernel's
// session over them; Refresh reads again what has changed and says what moved.
package notebook
