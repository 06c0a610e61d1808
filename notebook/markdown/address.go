package markdown

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// destination returns the address of a link or an image as a URL reference:
// entities and backslashes resolved, spaces and other letters percent-encoded.
func destination(raw []byte) string { return string(util.URLEscape(raw, true)) }

// autoDestination returns the address of a link written in < >.
func autoDestination(n *ast.AutoLink, body []byte) string {
	dest := string(util.URLEscape(n.URL(body), false))
	if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(dest), "mailto:") {
		dest = "mailto:" + dest
	}
	return dest
}

// mayFollow reports whether a link may lead to an address: to http, https,
// mailto and tel, or to a place beside the page.
func mayFollow(dest string) bool {
	switch scheme(dest) {
	case "", "http", "https", "mailto", "tel":
		return true
	}
	return false
}

// mayShow reports whether a picture may be loaded from an address.
func mayShow(dest string) bool {
	switch scheme(dest) {
	case "":
		return dest != ""
	case "http", "https":
		return true
	}
	return false
}

// scheme returns what stands before the first colon of an address, when no
// slash, ? or # comes before it; it is stricter than a browser, which needs
// the scheme to be well formed. An address that begins with two slashes leads
// to another host by whatever scheme the page has (on a memory stick: to a
// file server), so it counts as a scheme of its own.
func scheme(dest string) string {
	dest = strings.TrimLeft(dest, "\x00\x01\x02\x03\x04\x05\x06\x07\x08\t\n\v\f\r\x0e\x0f\x10\x11\x12\x13\x14\x15\x16\x17\x18\x19\x1a\x1b\x1c\x1d\x1e\x1f ")
	if len(dest) > 1 && isSlash(dest[0]) && isSlash(dest[1]) {
		return "//"
	}
	i := strings.IndexAny(dest, ":/?#\\")
	if i < 0 || dest[i] != ':' {
		return ""
	}
	if i == 0 {
		return ":"
	}
	return strings.ToLower(dest[:i])
}

func isSlash(c byte) bool { return c == '/' || c == '\\' }

// escape makes a text safe in HTML text and in a quoted attribute.
func escape(s string) []byte { return util.EscapeHTML(bytes.ToValidUTF8([]byte(s), []byte("\uFFFD"))) }
