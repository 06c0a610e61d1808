//go:build js

package calc

// Sentence puts values into a format, as errors and remarks are written.
func Sentence(format string, args ...any) string { return fill(format, args) }
