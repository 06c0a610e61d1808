package site

import (
	"bytes"
	"crypto/sha1"
	"encoding/xml"
	"fmt"
	"html"
	"slices"
	"strings"

	"scarph/kernel"
	"scarph/notebook"
)

// feedEntries is how many entries the feed carries.
const feedEntries = 30

// The elements of a feed that we write.
// Source: RFC 4287, The Atom Syndication Format, section 4.
type (
	atomFeed struct {
		XMLName xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
		Lang    string      `xml:"http://www.w3.org/XML/1998/namespace lang,attr,omitempty"`
		ID      string      `xml:"id"`
		Title   string      `xml:"title"`
		Sub     string      `xml:"subtitle,omitempty"`
		Updated string      `xml:"updated"`
		Author  atomAuthor  `xml:"author"`
		Rights  string      `xml:"rights,omitempty"`
		Links   []atomLink  `xml:"link"`
		Entries []atomEntry `xml:"entry"`
	}
	atomAuthor struct {
		Name string `xml:"name"`
	}
	atomLink struct {
		Rel  string `xml:"rel,attr"`
		Type string `xml:"type,attr,omitempty"`
		Href string `xml:"href,attr"`
	}
	atomEntry struct {
		ID         string         `xml:"id"`
		Title      string         `xml:"title"`
		Published  string         `xml:"published"`
		Updated    string         `xml:"updated"`
		Links      []atomLink     `xml:"link"`
		Categories []atomCategory `xml:"category"`
		Summary    string         `xml:"summary"`
		Content    *atomContent   `xml:"content,omitempty"`
	}
	atomCategory struct {
		Term string `xml:"term,attr"`
	}
	atomContent struct {
		Type string `xml:"type,attr"`
		Text string `xml:",chardata"`
	}
)

// writeFeed writes the newest entries as a feed; a journal without dated entries has
// none. An entry's whole text is in it only when the journal says where the series will
// stand, for its links and pictures need an address that holds everywhere.
func (s *series) writeFeed() error {
	list := s.dated
	if len(list) == 0 {
		return nil
	}
	base := s.base()
	f := atomFeed{Lang: s.set.Language, ID: s.urn(""), Title: s.n.Title(), Sub: s.set.Description, Updated: atomDate(list[0].Date), Author: atomAuthor{s.author()}, Rights: s.set.Licence,
		Links: []atomLink{{Rel: "alternate", Type: "text/html", Href: base + "index.html"}}}
	if base != "" {
		f.Links = append(f.Links, atomLink{Rel: "self", Type: "application/atom+xml", Href: base + "feed.xml"})
	}
	for i, e := range list {
		if i == feedEntries {
			break
		}
		x := atomEntry{ID: s.urn(e.Key), Title: s.titles[e], Published: atomDate(e.Date), Updated: atomDate(e.Date), Summary: s.summary(e, 400), Links: []atomLink{{Rel: "alternate", Type: "text/html", Href: base + s.at[e]}}}
		for _, t := range e.Subjects {
			x.Categories = append(x.Categories, atomCategory{t})
		}
		if base != "" {
			x.Content = &atomContent{"html", s.feedText(e, base)}
		}
		f.Entries = append(f.Entries, x)
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	enc := xml.NewEncoder(&b)
	enc.Indent("", " ")
	if err := enc.Encode(f); err != nil {
		return err
	}
	b.WriteByte('\n')
	return s.out.put("feed.xml", b.Bytes())
}

// findDated lists the entries that have a date, newest first.
func (s *series) findDated() []*notebook.Entry {
	var list []*notebook.Entry
	for _, e := range s.entries {
		if len(e.Date) == 10 && !e.Front {
			list = append(list, e)
		}
	}
	slices.Reverse(list)
	return list
}

func (s *series) author() string {
	for _, name := range []string{s.set.Author, s.set.Boat, s.n.Title()} {
		if name != "" {
			return name
		}
	}
	return "the builder"
}

// feedText is the text of an entry with addresses that hold everywhere.
func (s *series) feedText(e *notebook.Entry, base string) string {
	p := notebook.Page{AsOf: kernel.Now, Hide: s.set.Hides, WithoutTitle: true, Series: true, IDPrefix: "feed-"}
	p.Link, p.Picture = s.link(e, base), s.picture(e, base)
	return unstyled.Replace(strings.Join(s.n.RenderEntry(e, p), ""))
}

// unstyled parts with words and signs what the pages' style sheet parts by place: those who
// read feeds have none.
var unstyled = strings.NewReplacer(
	`<span class="is">`, `: <span class="is">`,
	`<span class="also">`, ` · <span class="also">`,
	`<span class="how"`, ` = <span class="how"`,
	`<small `, ` [<small `,
	`</small>`, `</small>] `,
)

// plainTitle is the title of an entry with its values, as plain text.
func plainTitle(n *notebook.Notebook, e *notebook.Entry) string {
	return html.UnescapeString(n.RenderTitle(e, notebook.Page{AsOf: kernel.Now}))
}

func atomDate(day string) string { return day + "T00:00:00Z" }

// urn names the journal, or one of its entries, for ever: by the boat and the entry's
// path, whatever address the series stands at.
// Source: RFC 9562, section 5.5, a UUID by the hash of a name.
func (s *series) urn(key string) string {
	name := s.set.Boat
	if name == "" {
		name = s.n.Title()
	}
	space := [16]byte{0x2c, 0x9a, 0x4e, 0x01, 0x6f, 0x3b, 0x5d, 0x87, 0x9b, 0x10, 0x73, 0x63, 0x61, 0x72, 0x70, 0x68}
	sum := sha1.Sum(append(space[:], []byte(name+"\n"+key)...))
	u := sum[:16]
	u[6] = u[6]&0x0f | 0x50
	u[8] = u[8]&0x3f | 0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}

// writeSitemap lists the pages for those who look for them, when the journal says where
// they will stand.
// Source: sitemaps.org protocol 0.9.
func (s *series) writeSitemap() error {
	base := s.base()
	if base == "" {
		return nil
	}
	type place struct {
		Loc     string `xml:"loc"`
		Lastmod string `xml:"lastmod,omitempty"`
	}
	set := struct {
		XMLName xml.Name `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
		Places  []place  `xml:"url"`
	}{}
	if s.front == nil {
		set.Places = append(set.Places, place{Loc: base})
	}
	for _, e := range s.entries {
		set.Places = append(set.Places, place{Loc: base + strings.TrimSuffix(s.at[e], "index.html"), Lastmod: e.Date})
	}
	for _, m := range s.nav("index.html") {
		if m.Href != "index.html" && m.Href != "search.html" {
			set.Places = append(set.Places, place{Loc: base + m.Href})
		}
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	enc := xml.NewEncoder(&b)
	enc.Indent("", " ")
	if err := enc.Encode(set); err != nil {
		return err
	}
	b.WriteByte('\n')
	return s.out.put("sitemap.xml", b.Bytes())
}
