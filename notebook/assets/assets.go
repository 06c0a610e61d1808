// Package assets holds what pages are made of: style sheets, scripts and templates.
// The style sheet journal.css is that of every page; workshop.* belongs to the live
// page, reader.* to the published series.
package assets

import "embed"

// Files holds the assets by name.
//
//go:embed *.css *.js *.html *.svg
var Files embed.FS
