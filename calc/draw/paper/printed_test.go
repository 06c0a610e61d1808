package paper_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scarph/calc/draw"
	"scarph/calc/draw/paper"
)

// TestPrinted renders a sheet and measures its bars in the picture, as a rule on
// paper would. It needs pdftoppm (poppler-utils).
func TestPrinted(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("SCARPH_NEEDS_POPPLER") != "" {
			t.Fatal("pdftoppm is not installed")
		}
		t.Skip("pdftoppm is not installed")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "p.pdf")
	if err := os.WriteFile(path, tile(t, options(), paper.Named{Name: "camber", Flat: &draw.CamberMould{Beam: .17, Camber: .02}}), 0o644); err != nil {
		t.Fatal(err)
	}
	// 254 dots to the inch are ten to the millimetre
	cmd := exec.Command("pdftoppm", "-r", "254", "-f", "2", "-l", "2", "-gray", "-singlefile", path, filepath.Join(dir, "p"))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v %s", err, out)
	}
	picture, err := os.ReadFile(filepath.Join(dir, "p.pgm"))
	if err != nil {
		t.Fatal(err)
	}
	width, rows := pgm(t, picture)
	runs := map[int]int{}
	for y := 0; y < len(rows)/width; y++ {
		run := 0
		for _, v := range append(append([]byte(nil), rows[y*width:(y+1)*width]...), 255) {
			if v < 128 {
				run++
				continue
			}
			if run > 500 {
				runs[run]++
			}
			run = 0
		}
	}
	has := func(want int) bool { // a line's own breadth stands over its ends, 0.25 mm at most
		for r := range runs {
			if r >= want-1 && r <= want+4 {
				return true
			}
		}
		return false
	}
	if !has(1000) || !has(1016) || !has(1700) {
		t.Errorf("level lines on the printed sheet, tenths of a millimetre: %v; want 1000, 1016 and the chord of 1700", runs)
	}
}

// TestWordsOnEverySheet reads the words back: on each sheet stand the warning, the bars'
// lengths, which sheet of how many it is, the boat, the revision letter and the date. It
// needs pdftotext (poppler-utils).
func TestWordsOnEverySheet(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("SCARPH_NEEDS_POPPLER") != "" {
			t.Fatal("pdftotext is not installed")
		}
		t.Skip("pdftotext is not installed")
	}
	for _, name := range []string{"A4", "Letter", "A3", "roll"} {
		o := options()
		o.Page = paperNamed(t, name)
		path := filepath.Join(t.TempDir(), "p.pdf")
		if err := os.WriteFile(path, tile(t, o, patterns()...), 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdftotext", "-raw", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		sheets := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
		cells := ""
		for i, text := range sheets {
			of := "sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(sheets))
			for _, want := range []string{"Measure this before you cut.", "100 mm", "4 in", of, "Sorrel · revision C · 2027-03-06"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s, sheet %d does not say %q", name, i+1, want)
				}
			}
			_, after, _ := strings.Cut(text, of+":")
			line, _, _ := strings.Cut(after, "\n")
			cells += " " + strings.TrimSpace(line)
		}
		if !strings.Contains(sheets[0], "Key") || !strings.Contains(sheets[0], "bottom half") || !strings.Contains(cells, "A1") && name != "roll" || !strings.Contains(cells, "whole") {
			t.Errorf("%s: the key says %.80q, the sheets%s", name, sheets[0], cells)
		}
	}
}

// pgm takes a portable graymap apart.
func pgm(t *testing.T, b []byte) (width int, rows []byte) {
	t.Helper()
	f := bytes.SplitN(b, []byte("\n"), 4)
	var height int
	if len(f) < 4 || string(f[0]) != "P5" {
		t.Fatalf("no graymap: %.20q", b)
	}
	size := bytes.Fields(f[1])
	width, height = int(float(t, string(size[0]))), int(float(t, string(size[1])))
	if len(f[3]) != width*height {
		t.Fatalf("%d bytes for %d by %d", len(f[3]), width, height)
	}
	return width, f[3]
}
