package site

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"

	"scarph/notebook/photo"
)

const svgSpace = "http://www.w3.org/2000/svg"

// cleanSVG returns a drawing without what it does not need to be seen: scripts,
// comments, metadata, what the drawing program noted for itself, and addresses outside
// of it. It also finds its size, 0 when the drawing does not say.
func cleanSVG(src []byte) (clean []byte, w, h int, err error) {
	d := xml.NewDecoder(bytes.NewReader(src))
	d.Entity = map[string]string{}
	var out, style bytes.Buffer
	depth, skip, styled := 0, 0, 0
	for {
		t, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, 0, 0, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			if depth == 0 && (t.Name.Local != "svg" || t.Name.Space != svgSpace) {
				return nil, 0, 0, errors.New("it is no SVG")
			}
			depth++
			if skip > 0 || t.Name.Space != svgSpace || unseen(t.Name.Local) {
				skip++
				continue
			}
			if depth == 1 {
				w, h = svgSize(t.Attr)
			}
			startTag(&out, t, depth == 1)
			if styled == 0 && strings.EqualFold(t.Name.Local, "style") {
				styled = depth
			}
		case xml.EndElement:
			if depth == styled { // checked whole: a comment may have stood in a word of it
				if !leadsOut("style", style.String()) {
					_ = xml.EscapeText(&out, style.Bytes()) // a buffer has no errors
				}
				style.Reset()
				styled = 0
			}
			depth--
			if skip > 0 {
				skip--
				continue
			}
			out.WriteString("</" + t.Name.Local + ">")
		case xml.CharData:
			switch {
			case skip > 0 || depth == 0:
			case styled > 0:
				style.Write(t)
			default:
				if err := xml.EscapeText(&out, t); err != nil {
					return nil, 0, 0, err
				}
			}
		}
	}
	if out.Len() == 0 {
		return nil, 0, 0, errors.New("it is empty")
	}
	return append(out.Bytes(), '\n'), w, h, nil
}

// unseen are the elements that are left out, however they are spelled: HTML, in which a
// drawing may stand, knows no capitals.
func unseen(name string) bool {
	switch strings.ToLower(name) {
	case "script", "metadata", "foreignobject", "iframe", "animate", "set", "animatetransform", "animatemotion", "handler", "listener":
		return true
	}
	return false
}

func startTag(out *bytes.Buffer, t xml.StartElement, top bool) {
	out.WriteString("<" + t.Name.Local)
	if top {
		out.WriteString(` xmlns="` + svgSpace + `"`)
	}
	for _, a := range t.Attr {
		name := a.Name.Local
		switch {
		case a.Name.Space == "http://www.w3.org/1999/xlink" && name == "href":
		case a.Name.Space == "http://www.w3.org/XML/1998/namespace" && (name == "space" || name == "lang"):
			name = "xml:" + name
		case a.Name.Space != "" || name == "xmlns" || strings.HasPrefix(strings.ToLower(name), "on"):
			continue
		case name != "href" && strings.EqualFold(name, "href"):
			continue
		}
		value, ok := a.Value, true
		if name == "href" {
			value, ok = within(value)
		}
		if !ok || leadsOut(name, value) {
			continue
		}
		out.WriteString(` ` + name + `="`)
		_ = xml.EscapeText(out, []byte(value)) // a buffer has no errors
		out.WriteByte('"')
	}
	out.WriteByte('>')
}

// within returns an address inside the drawing: a place, or a photo in it, which is
// written anew so that what its camera noted is gone. False for any other.
func within(href string) (string, bool) {
	kind, data, ok := strings.Cut(strings.TrimSpace(href), ";base64,")
	if !ok || !strings.HasPrefix(kind, "data:image/") {
		return href, strings.HasPrefix(href, "#")
	}
	src, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(data), ""))
	if err != nil {
		return "", false
	}
	p, err := photo.Upright(src, 0)
	if err != nil {
		return "", false
	}
	kind = "data:image/jpeg"
	if p.Ext == ".png" {
		kind = "data:image/png"
	}
	return kind + ";base64," + base64.StdEncoding.EncodeToString(p.Bytes), true
}

// leadsOut reports whether an attribute or a style sheet loads something from elsewhere,
// or may: what is spelled with escapes is not looked into.
func leadsOut(name, value string) bool {
	v := strings.ToLower(strings.Join(strings.Fields(value), ""))
	if name == "href" || name == "src" {
		return !strings.HasPrefix(v, "#") && !strings.HasPrefix(v, "data:image/png") && !strings.HasPrefix(v, "data:image/jpeg")
	}
	if strings.Contains(v, "@import") || name == "style" && strings.Contains(v, `\`) {
		return true
	}
	before, rest, found := strings.Cut(v, "url(")
	for found && !strings.Contains(before, "//") {
		rest = strings.TrimLeft(rest, `'"`)
		switch {
		case strings.HasPrefix(rest, "data:font/"), strings.HasPrefix(rest, "data:application/font"), strings.HasPrefix(rest, "data:application/x-font"):
			_, rest, _ = strings.Cut(rest, ")")
		case !strings.HasPrefix(rest, "#"):
			return true
		}
		before, rest, found = strings.Cut(rest, "url(")
	}
	return strings.Contains(before, "//")
}

// svgSize finds the size of a drawing in pixels by its width and height, else by its
// viewBox.
func svgSize(attrs []xml.Attr) (w, h int) {
	number := func(s string) float64 {
		f, err := strconv.ParseFloat(strings.TrimSuffix(s, "px"), 64)
		if err != nil || f <= 0 || f > 20_000 {
			return 0
		}
		return f
	}
	var box []string
	var x, y float64
	for _, a := range attrs {
		switch a.Name.Local {
		case "width":
			x = number(a.Value)
		case "height":
			y = number(a.Value)
		case "viewBox":
			box = strings.FieldsFunc(a.Value, func(r rune) bool { return r == ' ' || r == ',' })
		}
	}
	if (x == 0 || y == 0) && len(box) == 4 {
		x, y = number(box[2]), number(box[3])
	}
	if x < 1 || y < 1 {
		return 0, 0
	}
	return int(x + .5), int(y + .5)
}
