// Package site writes a journal as a published series: a folder of plain pages with
// the numbers baked in, in both families of units, which works from any web server
// under any path and from a memory stick. Readers may try numbers of their own in it;
// that takes scripts, all the rest does not.
//
// What is private is not in the notebook that the pages are made from, see
// [notebook.Notebook.Published], so that nothing here has to leave it out.
package site

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/cargo"
)

// Options say what is published, and how it is told of.
type Options struct {
	AsOf int // order of the last entry that is published, kernel.Now for all
	// Progress, if not nil, is told what is being done when it takes long.
	Progress io.Writer
	// Anyway writes the site although there are problems.
	Anyway bool
	// Stop, if not nil, is closed to give up; the old site stays whole.
	Stop <-chan struct{}
}

// Report says what was written, and what is to be mended.
type Report struct {
	Pages, Photos int
	Rendered      int   // pages that were worked out; the others are those of the site before
	Bytes         int64 // of the whole site
	Written       int   // files that were not there or not the same
	Kept          int   // files that were
	Removed       int   // files of the site before that are no longer part of it
	// Problems keep the site from being written; Remarks do not.
	Problems, Remarks []notebook.Diagnostic
	Done              bool // it was written
}

// Publish writes the site of a journal to a folder. With problems nothing is written,
// unless the options ask for it.
func Publish(n *notebook.Notebook, out string, o Options) (Report, error) {
	s := newSeries(n, o)
	s.check()
	if len(s.report.Problems) > 0 && !o.Anyway {
		return s.report, nil
	}
	target, err := openOutput(out, n.Root())
	if err != nil {
		return s.report, err
	}
	defer target.abandon()
	s.out = target
	if err := s.write(); err != nil {
		return s.report, err
	}
	if err := target.commit(); err != nil {
		return s.report, err
	}
	s.report.Done = true
	s.report.Pages, s.report.Written, s.report.Kept, s.report.Removed, s.report.Bytes = target.pages(), target.written, target.kept, target.removed, target.bytes
	return s.report, nil
}

// Inspect says what Publish would say of a journal and the journal itself does not: what
// is private and would be said, pictures that are not there, links that lead nowhere.
// Nothing is written.
func Inspect(n *notebook.Notebook, asOf int) (problems, remarks []notebook.Diagnostic) {
	s := newSeries(n, Options{AsOf: asOf})
	said := len(s.report.Remarks) // how results of what is private are told is no fault
	s.check()
	known := map[string]bool{}
	for _, d := range n.Problems(asOf) {
		known[d.String()] = true
	}
	for _, d := range s.report.Problems {
		if !known[d.String()] {
			problems = append(problems, d)
		}
	}
	return problems, s.report.Remarks[said:]
}

// series is a journal on its way to a site.
type series struct {
	o       Options
	n       *notebook.Notebook // what readers may know
	set     notebook.Settings
	entries []*notebook.Entry // in order; the title page first, when there is one
	front   *notebook.Entry
	places  places
	photos  *album
	cargo   *cargo.Journal
	to      *cargo.Places // the cargo's addresses
	lists   []list
	dated   []*notebook.Entry // that have a date, newest first
	// at are the entries' addresses below the root of the site.
	at       map[*notebook.Entry]string
	titles   map[*notebook.Entry]string // with their values, as plain text
	subjects map[string][]*notebook.Entry
	used     []used
	out      files
	packed   []byte // the cargo as it travels
	same     string // the digest of what the lists are made of, "" to make them in any case
	engine   bool   // the pages carry the browser build
	one      bool   // all stands on one page
	report   Report
	told     time.Time
	mu       sync.Mutex // guards the report, while pages and photos are made
	sheets   sync.Pool  // buffers for pages
}

// files take what a site is made of, from several at once.
type files interface {
	// put writes a file, or keeps the one that is there with the same content.
	put(name string, data []byte) error
	// keep takes a file over from the site before; false when it is not there.
	keep(name string) bool
	// keepWhole takes files over from the site before, all or none; false when they are
	// not all there as they were written.
	keepWhole(names []string) bool
	// old returns what is remembered of the site before, under a key.
	old(key string) ([]byte, bool)
	// remember keeps something for the next time.
	remember(key string, data []byte)
}

func newSeries(n *notebook.Notebook, o Options) *series {
	public, left, sealed := n.Published(o.AsOf)
	s := &series{o: o, n: public, set: public.Settings(), engine: hasEngine(), sheets: sync.Pool{New: func() any { return new(bytes.Buffer) }}}
	s.report.Problems, s.report.Remarks = left, sealed
	for _, e := range public.Entries() {
		if e.Front {
			s.front = e
		}
		s.entries = append(s.entries, e)
	}
	s.places = newPlaces(s.entries)
	s.at, s.titles = map[*notebook.Entry]string{}, map[*notebook.Entry]string{}
	for _, e := range s.entries {
		s.titles[e] = plainTitle(s.n, e)
		s.at[e] = address(s.places.page[e])
	}
	s.lists, s.subjects, s.used, s.dated = s.neededLists(), s.findSubjects(), s.findFunctions(), s.findDated()
	s.cargo = s.load()
	s.to = s.cargo.Places()
	s.photos = newAlbum(s)
	return s
}

// load is the cargo with the addresses of this site.
func (s *series) load() *cargo.Journal {
	j := s.n.Cargo()
	j.Values = "dimensions.html#"
	if s.has("history") {
		j.History = "history.html#"
	}
	for i := range j.Entries {
		if e, ok := s.n.Entry(j.Entries[i].Key); ok {
			j.Entries[i].At = s.at[e]
		}
	}
	return j
}

// check gathers what is wrong with the journal as readers get it.
func (s *series) check() {
	s.report.Problems = append(s.report.Problems, s.n.Problems(kernel.Now)...)
	for _, e := range s.entries {
		s.checkPictures(e)
		s.checkLinks(e)
	}
}

// write makes all files of the site: the photos first, for the pages name their copies.
func (s *series) write() error {
	if err := s.writePhotos(); err != nil {
		return err
	}
	s.packed = s.cargo.Encode()
	s.same = s.digest(s.packed)
	var work []func() error
	for _, l := range s.lists { // the longest pages
		work = append(work, func() error {
			return s.unlessSame([]string{l.file()}, func() error { return s.writeList(l) })
		})
	}
	work = append(work, func() error { return s.unlessSame(s.dataFiles(), s.writeData) }, s.writeSearch, s.writeShared, s.writeSubjects, s.writeFunctions, s.writeFeed, s.writeSitemap)
	if s.front == nil {
		work = append(work, s.writeFront)
	}
	for i := range s.entries {
		work = append(work, func() error { return s.writeEntry(i) })
	}
	return s.together("pages", len(work), func(i int) error { return work[i]() })
}

// stopped reports whether someone asked to give up.
func (s *series) stopped() error {
	select {
	case <-s.o.Stop:
		return errStopped
	default:
		return nil
	}
}

var errStopped = fmt.Errorf("stopped; the site is as it was before")

// tell says how far a long work has come, at most twice a second.
func (s *series) tell(what string, done, of int) {
	if s.o.Progress == nil {
		return
	}
	now := time.Now()
	if s.told.IsZero() {
		s.told = now.Add(-time.Millisecond)
	}
	if now.Sub(s.told) < 500*time.Millisecond {
		return
	}
	s.told = now
	fmt.Fprintf(s.o.Progress, "%s %d of %d\n", what, done, of)
}

// summary is what is said of an entry where it is listed: its summary, or the
// beginning of its text.
func (s *series) summary(e *notebook.Entry, most int) string {
	if e.Summary != "" {
		return e.Summary
	}
	text := strings.Join(strings.Fields(strings.TrimPrefix(s.n.PlainText(e, notebook.Page{AsOf: kernel.Now}), s.titles[e])), " ")
	r := []rune(text)
	if len(r) <= most {
		return text
	}
	cut := string(r[:most])
	if i := strings.LastIndexByte(cut, ' '); i > most/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, ",;:–— ") + " …"
}
