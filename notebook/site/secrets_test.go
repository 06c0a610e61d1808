package site_test

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// secretive is a journal with secrets in every place where something can be kept back.
// Each begins with zq, as no word of any language does, or is a number that no other
// line gives.
var secretive = map[string]string{
	"journal.md": `---
title: Open
author: A Builder
canonical: https://boats.example.org/open/
hide: [money, hours]
---
# Open

She is {beam} wide and {taken} is taken off. <!-- zqcomment -->

~~~calc
drawn beam = 4' 6"       # a note that may be read
planks = 6
~~~

~~~calc private
zqlength = 3.14159 m     # zqnote
zqhand = 41.625 mm
helpers = 2
~~~

~~~calc
taken = zqhand / 4
each = 7 * helpers
check zqlength > 2 m
share = zqrate / 2
~~~

Not for readers: {zqlength}, {zqrate}.
`,
	"2027-01-02-cost.md": `# Cost

~~~calc
zqrate = 73.21 EUR
spend 48.27 EUR on zqvarnish   # zqshop
work 3.72 h on zqfairing       # zqhelper
total = zqrate * planks
beam / 2
~~~

[The draft](2027-01-03-draft.md), [what is kept](2027-01-04-kept.md), [notes](_zqnotes.md), [folder](.zqfolder/a.txt).

![The transom](zq-house-number-12.jpg)

![The lines](lines.svg)
`,
	"2027-01-03-draft.md":     "---\ntitle: zqdrafttitle\ndraft: true\nsubjects: [zqdraftsubject]\n---\n~~~calc\nzqdraft = 1.7771 m\nrevise beam = 7' 7 7/8\"\n~~~\n\nzqdrafttext ![zqdraftalt](draft.jpg)\n",
	"2027-01-04-kept.md":      "---\ntitle: zqkepttitle\nprivate: true\nsubjects: [zqkeptsubject]\nsummary: zqsummary\n---\n~~~calc\nzqkept = 2.8882 m\nrevise planks = 7\n~~~\n\nzqkepttext ![zqkeptalt](kept.jpg)\n",
	"_zqnotes.md":             "zqunderscore",
	".zqfolder/a.txt":         "zqdot",
	"2027-01-05-last.md":      "---\ntitle: Last\n---\n\nAt the end. {planks} planks.\n",
	"lines.svg":               `<svg xmlns="http://www.w3.org/2000/svg" xmlns:d="http://example.org/zqspace" width="200" height="100"><!-- zqsvgcomment --><metadata>zqmeta</metadata><script>zqscript()</script><g d:label="zqlabel" onclick="zqclick()"><path d="M0 0h200"/></g><image href="http://example.org/zqimage.png"/></svg>`,
	"zq-house-number-12.jpg":  "",
	"draft.jpg":               "",
	"kept.jpg":                "",
	"zqnobody-asks-for-it.md": "---\ndraft: true\n---\nzqdraft2\n",
}

// secretNumbers are the hidden quantities as the program could show them.
var secretNumbers = []string{"3.14159", "3.1416", "10' 3", "41.625", "73.21", "36.6", "439.26", "48.27", "3.72", "1.7771", "7' 7", "2.8882", "7 planks"}

func secretJournal(t *testing.T) string {
	files := map[string]string{}
	for name, text := range secretive {
		if strings.HasSuffix(name, ".jpg") {
			text = snapshot(t, 700, 500, uint32(len(name)), true, "zqcamera 52.5163N 13.3777E")
		}
		files[name] = text
	}
	return journalOf(t, files)
}

var packedText = regexp.MustCompile(`[A-Za-z0-9+/]{200,}={0,2}`)

// unpacked are the bytes of a file as they are, and all that is packed in them.
func unpacked(t *testing.T, name string, data []byte) map[string][]byte {
	t.Helper()
	all := map[string][]byte{name: data}
	if bytes.HasPrefix(data, []byte{0x1f, 0x8b}) {
		z, err := gzip.NewReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(name, err)
		}
		inner, err := io.ReadAll(z)
		if err != nil {
			t.Fatal(name, err)
		}
		all[name+", unpacked"] = inner
		return all
	}
	for _, x := range packedText.FindAll(data, -1) {
		if inner, err := base64.StdEncoding.DecodeString(string(x)); err == nil {
			for k, v := range unpacked(t, name+", decoded", inner) {
				all[k] = v
			}
		}
	}
	return all
}

func TestNothingPrivateIsPublished(t *testing.T) {
	journal := secretJournal(t)
	out := publish(t, journal)
	files := readSite(t, out)
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range []string{"", "2027-01-02"} {
		at := filepath.Join(t.TempDir(), "one.html")
		if _, err := site.PublishOne(n, at, entry, site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
			t.Fatal(err)
		}
		files["one file"+entry] = readSite(t, filepath.Dir(at))["one.html"]
	}
	kinds := map[string]bool{}
	for name, data := range files {
		for part, data := range unpacked(t, name, data) {
			kinds[part] = true
			if strings.Contains(part, "wasm") && !strings.Contains(part, "unpacked") {
				continue
			}
			text := string(data)
			low := strings.ToLower(text)
			for _, secret := range append([]string{"zq", "52.5163", filepath.Dir(journal)}, secretNumbers...) {
				if secret == "zq" && (!isText(data) || strings.HasPrefix(part, "one file") && strings.Contains(part, "decoded")) {
					continue // two letters come up by chance in what is no text
				}
				if secret == "zq" {
					low = withoutPacked(low)
				}
				if i := strings.Index(low, strings.ToLower(secret)); i >= 0 && !(isEngine(part) && len(secret) < 8) {
					t.Errorf("%s tells %q: …%s…", part, secret, low[max(0, i-60):min(len(low), i+60)])
				}
			}
			for _, camera := range []string{"zqcamera", "Photoshop 3.0", "xmpmeta", "Exif\x00"} {
				if strings.Contains(text, camera) && !isEngine(part) {
					t.Errorf("%s keeps what the camera wrote: %q", part, camera)
				}
			}
		}
	}
	for _, want := range []string{"assets/cargo.js", "assets/engine.js, decoded, unpacked", "assets/engine.wasm.gz, unpacked", "feed.xml", "search-index.js", "values.csv", "values.json", "sitemap.xml", "one file"} {
		if _, _, engine := site.Engine(); !engine && (strings.Contains(want, "engine") || strings.Contains(want, "cargo")) {
			continue
		}
		if !kinds[want] {
			t.Errorf("%s was not looked at", want)
		}
	}
	// what may be read is there, worked with what may not
	index := string(files["index.html"])
	for _, told := range []string{"4&#39; 6&#34;", ">14<", "a note that may be read", "not told"} {
		if !strings.Contains(index, told) {
			t.Errorf("%q is not in the title page", told)
		}
	}
	if strings.Contains(string(files["assets/cargo.js"]), "private") {
		t.Error("the cargo speaks of what is private")
	}
}

// isEngine reports whether a file is the program itself, in which short numbers occur.
func isEngine(part string) bool {
	return strings.HasPrefix(part, "assets/engine") || strings.Contains(part, "unpacked")
}

func isText(data []byte) bool { return !bytes.ContainsRune(data, 0) }

func withoutPacked(s string) string { return packedText.ReplaceAllString(s, "") }
