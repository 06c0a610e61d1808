package site

import "testing"

// TestStylesOfDrawings: a style sheet in a drawing stays when it needs nothing from
// elsewhere, and goes whole when it does or may.
func TestStylesOfDrawings(t *testing.T) {
	for _, c := range []struct{ style, want string }{
		{"a{fill:url(#c)}", "a{fill:url(#c)}"},
		{"@font-face{src:url('data:font/woff2;base64,d09//GMg')} a{fill:red}", "@font-face{src:url(&#39;data:font/woff2;base64,d09//GMg&#39;)} a{fill:red}"},
		{"a{fill:url(http://a/)}", ""},
		{"@font-face{src:url(data:font/woff2;base64,AA//)} a{b:url(x)}", ""},
		{`@import "x";`, ""},
		{`@im<!-- -->port "x";`, ""},
		{`a{b:image-set("//a/b" 1x)}`, ""},
		{`a{b:\75rl(http:x)}`, ""},
		{"a{fill:red}<w:w>@import</w:w>", "a{fill:red}"},
	} {
		for _, name := range []string{"style", "Style"} {
			clean, _, _, err := cleanSVG([]byte(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:w="w"><` + name + ">" + c.style + "</" + name + "></svg>"))
			if want := `<svg xmlns="http://www.w3.org/2000/svg"><` + name + ">" + c.want + "</" + name + "></svg>\n"; err != nil || string(clean) != want {
				t.Errorf("%s is cleaned to %s %v", c.style, clean, err)
			}
		}
	}
}

// TestCapitalsInDrawings: what HTML would read without its capitals is no way around.
func TestCapitalsInDrawings(t *testing.T) {
	clean, _, _, err := cleanSVG([]byte(`<svg xmlns="http://www.w3.org/2000/svg"><Script>x</Script><a hRef="javascript:x" OnClick="x"><text>a</text></a></svg>`))
	if want := `<svg xmlns="http://www.w3.org/2000/svg"><a><text>a</text></a></svg>` + "\n"; err != nil || string(clean) != want {
		t.Errorf("%s %v", clean, err)
	}
}
