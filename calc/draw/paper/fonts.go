package paper

import (
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// face is the name under which the letters stand in a PDF. They travel with it, so
// that a sheet looks the same on every printer.
const face = "go"

// letters puts both weights into the document.
func letters(f *fpdf.Fpdf) {
	f.AddUTF8FontFromBytes(face, "", goregular.TTF)
	f.AddUTF8FontFromBytes(face, "B", gobold.TTF)
}
