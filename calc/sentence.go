//go:build !js

package calc

import "fmt"

// Sentence puts values into a format, as errors and remarks are written. The browser
// build has a small one of its own, tested against this.
func Sentence(format string, args ...any) string { return fmt.Sprintf(format, args...) }
