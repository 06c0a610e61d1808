package site

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// FuzzSVG cleans anything as a drawing. What comes out is read again by the standard
// library, holds no script, no handler and no address outside of it, and does not change
// when it is cleaned once more.
func FuzzSVG(f *testing.F) {
	for _, s := range []string{
		`<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"><script>x</script><rect onclick="x" fill="url(http://a/)"/><a href="javascript:x"><text>a</text></a></svg>`,
		`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"><use xlink:href="#a"/><image href="data:image/png;base64,AAAA"/><style>@import "x"; a{b:url(#c)}</style></svg>`,
		`<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>`,
		`<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:h="http://www.w3.org/1999/xhtml"><h:script>x</h:script><s:script>y</s:script><s:set/></s:svg>`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		clean, _, _, err := cleanSVG(src)
		if err != nil {
			return
		}
		d, styled := xml.NewDecoder(bytes.NewReader(clean)), false
		for {
			k, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%q\ncleaned is\n%q: %v", src, clean, err)
			}
			if text, ok := k.(xml.CharData); ok && styled && leadsOut("style", string(text)) {
				t.Errorf("%q has the style %q", clean, text)
			}
			e, ok := k.(xml.StartElement)
			if !ok {
				continue
			}
			styled = strings.EqualFold(e.Name.Local, "style")
			if name := strings.ToLower(e.Name.Local); e.Name.Space != svgSpace || name == "script" || name == "foreignobject" {
				t.Errorf("%q holds %v", clean, e.Name)
			}
			for _, a := range e.Attr {
				name, value := strings.ToLower(a.Name.Local), strings.ToLower(strings.TrimSpace(a.Value))
				if strings.HasPrefix(name, "on") || name == "href" && !strings.HasPrefix(value, "#") && !strings.HasPrefix(value, "data:image/") {
					t.Errorf("%q holds %v", clean, a)
				}
			}
		}
		again, _, _, err := cleanSVG(clean)
		if err != nil || !bytes.Equal(again, clean) {
			t.Errorf("%q\ncleaned again is\n%q: %v", clean, again, err)
		}
	})
}
