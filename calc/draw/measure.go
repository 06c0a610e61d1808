package draw

import "strings"

// Type is the size of all letters of a picture, in picture units. There is one
// size: what matters is bold.
const Type = 13.0

// Texts are measured by the widths of a broad serif face, so that they find room
// in whatever face the page sets them. In parts of the size of the letters.
const (
	slimLetter    = 0.33 // i l ' , . space
	anyLetter     = 0.56
	digit         = 0.60
	wideLetter    = 0.90 // m w M W @ %
	capitalLetter = 0.72
)

// textWidth returns the width of a text in picture units.
func textWidth(text string, bold bool) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("iljI'’,.:;|! ·()[]", r):
			w += slimLetter
		case r >= '0' && r <= '9':
			w += digit
		case strings.ContainsRune("mwMW@%—", r):
			w += wideLetter
		case r >= 'A' && r <= 'Z':
			w += capitalLetter
		case r == '±' || r == '−' || r == '+' || r == '=' || r == '×' || r == '→':
			w += 0.84
		case r > 0x2e80: // scripts whose letters fill a square
			w += 1
		default:
			w += anyLetter
		}
	}
	if bold {
		w *= 1.12
	}
	return w * Type
}

// wrapped breaks a text into lines that are no wider than width.
func wrapped(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch longer := line + " " + word; {
		case line == "":
			line = word
		case textWidth(longer, false) <= width:
			line = longer
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
