package attack_test

import (
	"fmt"
	"net/url"
	"strings"

	"golang.org/x/net/html"
)

// never are elements that no page of ours has.
var never = map[string]bool{"iframe": true, "frame": true, "frameset": true, "object": true, "embed": true, "applet": true, "base": true, "portal": true, "marquee": true, "xmp": true, "plaintext": true, "noembed": true, "noframes": true, "listing": true, "isindex": true, "math": true, "foreignobject": true, "animate": true, "set": true, "audio": true, "video": true, "source": true, "track": true, "param": true, "bgsound": true, "canvas": true, "keygen": true, "map": true, "area": true, "image": true, "feimage": true}

// leads are attributes that hold an address.
var leads = map[string]bool{"href": true, "src": true, "action": true, "formaction": true, "poster": true, "background": true, "data": true, "cite": true, "ping": true, "manifest": true, "longdesc": true, "lowsrc": true, "dynsrc": true, "xlink:href": true, "codebase": true, "classid": true, "profile": true, "usemap": true}

// audit reads a page as a browser does and lists what could run in it, load from
// elsewhere, or lead to what is no page. ownScript says which scripts are the page's own:
// it is given their address and their text.
func audit(page string, ownScript func(src, text string) bool) []string {
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		return []string{err.Error()}
	}
	var faults []string
	fault := func(n *html.Node, why string) {
		var b strings.Builder
		shallow := *n
		shallow.FirstChild, shallow.LastChild, shallow.Parent, shallow.NextSibling, shallow.PrevSibling = nil, nil, nil, nil, nil
		_ = html.Render(&b, &shallow)
		faults = append(faults, fmt.Sprintf("%s: %.300s", why, b.String()))
	}
	for n := range root.Descendants() {
		if n.Type == html.CommentNode {
			fault(n, "a comment")
		}
		if n.Type != html.ElementNode {
			continue
		}
		name := strings.ToLower(n.Data)
		if never[name] {
			fault(n, "an element that has no place here")
		}
		at := map[string]string{}
		for _, a := range n.Attr {
			key := strings.ToLower(a.Key)
			if a.Namespace != "" {
				key = a.Namespace + ":" + key
			}
			at[key] = a.Val
			switch {
			case strings.HasPrefix(key, "on"), key == "srcdoc", key == "ping", key == "style":
				fault(n, "the attribute "+key)
			case leads[key] && !harmless(name, key, a.Val):
				fault(n, "an address")
			case key == "srcset" && strings.Contains(a.Val, "//"):
				fault(n, "a picture from elsewhere")
			}
		}
		switch name {
		case "script":
			if text := textOf(n); at["type"] != "text/plain" && at["type"] != "application/json" && !ownScript(at["src"], text) {
				fault(n, "a script")
			}
		case "noscript": // its text is markup where scripts are off
			if text := textOf(n); strings.Contains(text, "trap") || strings.Contains(text, "evil") {
				fault(n, "an attack for those without scripts")
			}
		case "style":
			if !ownScript("", textOf(n)) {
				fault(n, "a style")
			}
		case "link":
			switch at["rel"] {
			case "stylesheet", "icon", "alternate", "canonical", "manifest":
			case "modulepreload":
				if !ownScript(at["href"], "") {
					fault(n, "a link")
				}
			default:
				fault(n, "a link")
			}
		case "meta":
			if e := strings.ToLower(at["http-equiv"]); e != "" && e != "content-security-policy" {
				fault(n, "a meta element that acts")
			}
		}
	}
	return faults
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

// harmless reports whether an address may stand there: links lead to pages, to mail and
// to the telephone; what is loaded lies beside the page or in it.
func harmless(element, attribute, value string) bool {
	value = strings.Map(func(r rune) rune { // as a browser reads it
		if r == '\t' || r == '\n' || r == '\r' {
			return -1
		}
		return r
	}, strings.TrimFunc(value, func(r rune) bool { return r <= ' ' }))
	u, err := url.Parse(value)
	scheme, _, hasScheme := strings.Cut(value, ":")
	if err == nil {
		scheme, hasScheme = u.Scheme, u.Scheme != ""
	} else if strings.ContainsAny(scheme, "/?#") {
		hasScheme = false
	}
	elsewhere := strings.HasPrefix(strings.ReplaceAll(value, `\`, "/"), "//")
	if attribute != "href" || element == "link" || element == "use" {
		if element == "link" {
			return !elsewhere && (!hasScheme || scheme == "https" && strings.HasPrefix(value, "https://boats.test/"))
		}
		return !elsewhere && (!hasScheme || strings.HasPrefix(value, "data:image/png;base64,") || strings.HasPrefix(value, "data:image/jpeg;base64,"))
	}
	switch strings.ToLower(scheme) {
	case "http", "https", "mailto", "tel":
		return true
	case "data": // a picture that is linked to in a page with everything inside; no browser goes there
		return strings.HasPrefix(value, "data:image/png;base64,") || strings.HasPrefix(value, "data:image/jpeg;base64,")
	}
	return !hasScheme && !elsewhere
}
