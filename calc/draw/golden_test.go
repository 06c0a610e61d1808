package draw_test

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

var (
	inchStyle = calc.Style{}
	metric    = calc.Style{System: calc.Metric}
	nan       = math.NaN()
)

// picture is a drawing with the style it is shown in.
type picture struct {
	kind  draw.Kind
	style calc.Style
}

// pictures has at least one of each kind, by the name of its golden file.
func pictures() map[string]picture {
	all := map[string]picture{}
	for _, more := range []map[string]picture{linesPictures(), stripsPictures(), shapesPictures(), surveyPictures(), recordsPictures()} {
		for name, p := range more {
			all[name] = p
		}
	}
	return all
}

func names(all map[string]picture) []string {
	var list []string
	for name := range all {
		list = append(list, name)
	}
	sort.Strings(list)
	return list
}

// TestGolden compares each picture with the one that was looked at.
func TestGolden(t *testing.T) {
	all := pictures()
	for _, name := range names(all) {
		p := all[name]
		got := p.kind.SVG(p.style) + "\n<!-- " + strings.ReplaceAll(p.kind.Describe(p.style), "--", "- -") + " -->\n"
		path := filepath.Join("testdata", name+".svg")
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if string(want) != got {
			t.Errorf("%s: the picture has changed; look at it, then run go test -update", name)
		}
	}
}
