package markdown

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

func TestAddresses(t *testing.T) {
	for dest, want := range map[string]string{
		"":                        "follow",
		"a.html":                  "follow show",
		"../a/b.jpg?x=1:2#y:z":    "follow show",
		"./a:b.jpg":               "follow show",
		"#a":                      "follow show",
		"?a=b:c":                  "follow show",
		"/a":                      "follow show",
		"http://a":                "follow show",
		"HTTPS://a":               "follow show",
		"mailto:a@b":              "follow",
		"tel:+47":                 "follow",
		"//a/b":                   "",
		`\\a\b`:                   "",
		`/\a`:                     "",
		" //a":                    "",
		"a:b":                     "",
		":a":                      "",
		"C:/a.jpg":                "",
		"javascript:a":            "",
		"JaVaScRiPt:a":            "",
		"\x01javascript:a":        "",
		"java\nscript:a":          "",
		"vbscript:a":              "",
		"data:image/png;base64,a": "",
		"data:text/html,a":        "",
		"file:///a":               "",
		"blob:a":                  "",
		"ftp://a":                 "",
		"intent://a":              "",
	} {
		got := ""
		if mayFollow(dest) {
			got = "follow"
		}
		if mayShow(dest) {
			got += " show"
		}
		if strings.TrimSpace(got) != want {
			t.Errorf("%q: %q, want %q", dest, got, want)
		}
	}
}

func TestLinksAndPictures(t *testing.T) {
	o := Options{
		IDPrefix: "p-",
		Link:     func(s string) string { return "L(" + s + ")\"" },
		Image: func(s string) string {
			if strings.HasPrefix(s, "http") {
				return ""
			}
			return "I(" + s + ")"
		},
	}
	for src, want := range map[string]string{
		"[a](b.md)":                  `<p><a href="L(b.md)&quot;">a</a></p>`,
		"[a](<b c.md> 'd \"e')":      `<p><a href="L(b%20c.md)&quot;" title="d &quot;e">a</a></p>`,
		"[a](#b)":                    `<p><a href="#p-b">a</a></p>`,
		"[a](javascript:b)":          `<p><a>a</a></p>`,
		"[a](javascript&colon;b)":    `<p><a>a</a></p>`,
		"<http://a?b&c>":             `<p><a href="L(http://a?b&amp;c)&quot;">http://a?b&amp;c</a></p>`,
		"<a@b.c>":                    `<p><a href="L(mailto:a@b.c)&quot;">a@b.c</a></p>`,
		"<javascript:a>":             `<p><a>javascript:a</a></p>`,
		"[x <http://a> y](b)":        `<p><a href="L(b)&quot;">x http://a y</a></p>`,
		"![a](b.jpg)":                `<figure><img src="I(b.jpg)" alt="a" loading="lazy" /></figure>`,
		"x ![a *b* [c](d)](e)":       `<p>x <img src="I(e)" alt="a b c" loading="lazy" /></p>`,
		"![a](data:image/png;x 'c')": `<figure><span class="no-picture">a</span><figcaption>c</figcaption></figure>`,
		"![a\"><b](http://x/y.png)":  `<figure><span class="no-picture">a&quot;&gt;&lt;b</span></figure>`,
		"![a](#b)":                   `<figure><img src="I(#b)" alt="a" loading="lazy" /></figure>`,
		"![]()":                      `<figure><span class="no-picture"></span></figure>`,
		"![a](b) ![c](d)":            `<p><img src="I(b)" alt="a" loading="lazy" /> <img src="I(d)" alt="c" loading="lazy" /></p>`,
		"[![a](b)](c)":               `<p><a href="L(c)&quot;"><img src="I(b)" alt="a" loading="lazy" /></a></p>`,
		"![a][r]\n\n[r]: b '*c*'":    `<figure><img src="I(b)" alt="a" loading="lazy" /><figcaption>*c*</figcaption></figure>`,
	} {
		d := Parse([]byte(src))
		if got := strings.TrimSpace(strings.Join(d.Render(d.Sections[0], nil, o), "")); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", src, got, want)
		}
	}
}

// payloads are what a page must never run, each put wherever a text may stand.
// The shapes are those of the OWASP Cross Site Scripting filter evasion cheat
// sheet: tags, handlers, addresses, encodings, broken markup.
var payloads = []string{
	`<script>x()</script>`, `<SCRIPT SRC=//h/x.js></SCRIPT>`, `<script/src=x></script>`, `<<script>x()//<</script>`, `<script\x20>x()</script>`,
	`<scr<script>ipt>x()</scr</script>ipt>`, `<script>x()`, `</script><script>x()</script>`, `"><script>x()</script>`, `'><script>x()</script>`,
	`<img src=x onerror=x()>`, `<img src="x" onerror="x()">`, `<img/src/onerror=x()>`, `<img """><script>x()</script>">`, `<img src=javascript:x()>`,
	`<img dynsrc="javascript:x()">`, `<img lowsrc="javascript:x()">`, `<img src=# onmouseover="x()">`, `<img src= onmouseover="x()">`,
	`<svg onload=x()>`, `<svg/onload=x()>`, `<svg><script>x()</script></svg>`, `<svg><a xlink:href="javascript:x()"><text>y</text></a></svg>`,
	`<svg><animate onbegin=x() attributeName=x>`, `<math><mi xlink:href="javascript:x()">y</mi></math>`, `<math href="javascript:x()">y</math>`,
	`<body onload=x()>`, `<body background="javascript:x()">`, `<iframe src="javascript:x()"></iframe>`, `<iframe srcdoc="<script>x()</script>">`,
	`<iframe src=# onload=x()>`, `<frameset><frame src="javascript:x()"></frameset>`, `<object data="javascript:x()">`, `<embed src="data:image/svg+xml,x">`,
	`<applet code=x>`, `<link rel=stylesheet href="javascript:x()">`, `<style>@import'javascript:x()';</style>`, `<style>li{list-style-image:url(x)}</style>`,
	`<meta http-equiv=refresh content="0;url=javascript:x()">`, `<meta http-equiv=Link content="<x>; rel=stylesheet">`, `<base href="javascript:x()//">`,
	`<form action="javascript:x()"><input type=submit></form>`, `<form><button formaction="javascript:x()">y</button></form>`, `<isindex action=j>`,
	`<input type=image src=x onerror=x()>`, `<input autofocus onfocus=x()>`, `<select onfocus=x() autofocus>`, `<textarea onfocus=x() autofocus>`,
	`<keygen onfocus=x() autofocus>`, `<video><source onerror=x()></video>`, `<video src=x onerror=x()>`, `<audio src=x onerror=x()>`,
	`<details open ontoggle=x()>y</details>`, `<marquee onstart=x()>y</marquee>`, `<bgsound src="javascript:x()">`, `<layer src=x></layer>`,
	`<a href="javascript:x()">y</a>`, `<a href="jav&#x09;ascript:x()">y</a>`, `<a onclick=x()>y</a>`, `<a/href=javascript:x()>y</a>`,
	`<div style="background:url(javascript:x())">y</div>`, `<div style="width:expression(x())">y</div>`, `<div onclick=x()>y</div>`,
	`<b onmouseover=x()>y</b>`, `<b/onmouseover=x()>y</b>`, "<b\x0conmouseover=x()>y</b>", `<b title="x" onmouseover="x()">y</b>`,
	`<b title="" onmouseover=x() a="">y</b>`, `<b title='"><script>x()</script>'>y</b>`, "<b title=`\"><script>x()</script>`>y</b>", `<b title="&quot;><script>">y</b>`,
	`<b title=x/onmouseover=x()>y</b>`, `<b title="a"onmouseover="x()">y</b>`, `<b =title="x" onmouseover=x()>y</b>`, `<b title==x onmouseover=x()>y</b>`,
	`<table background="javascript:x()"><td background="javascript:x()">`, `<xss style="behavior:url(x.htc)">`, `<xml id=x><i><b>&lt;script&gt;</b></i></xml>`,
	`<?xml version="1.0"?><html:script>x()</html:script>`, `<!--[if gte IE 4]><script>x()</script><![endif]-->`, `<!--><script>x()</script>-->`,
	`<!-- --!><script>x()</script> -->`, `<!--<img title="--><img src=x onerror=x()>">`, `<![CDATA[<script>x()</script>]]>`, `<!DOCTYPE x [<!ENTITY y SYSTEM "z">]>`,
	`<noscript><p title="</noscript><img src=x onerror=x()>">`, `<template><script>x()</script></template>`, `<plaintext>`, `<xmp><script>x()</script></xmp>`,
	`<title><script>x()</script>`, `</p><script>x()</script>`, `</td></tr></table><script>x()</script>`, `<p><div><table><p>`, `<dialog open onclose=x()>`,
	"\x00<script>x()</script>", "<\x00script>x()</script>", "<scr\x00ipt>x()</scr\x00ipt>", "\xc0\xbcscript>x()</script>", `¼script¾x()¼/script¾`, `+ADw-script+AD4-x()`,
	`&lt;script&gt;x()&lt;/script&gt;`, `&#60;script&#62;x()&#60;/script&#62;`, `%3Cscript%3Ex()%3C/script%3E`, `\x3cscript\x3ex()`, `\<script>x()\</script>`,
	`javascript:x()`, `JAVASCRIPT:x()`, `javascript&colon;x()`, `javascript&#58;x()`, `&#106;avascript:x()`, "java\tscript:x()", "java\nscript:x()", "\x01javascript:x()",
	`java&Tab;script:x()`, `java&NewLine;script:x()`, `javascript\:x()`, `%6aavascript:x()`, `vbscript:x()`, `livescript:x()`, `mocha:x()`, `view-source:javascript:x()`,
	`feed:javascript:x()`, `data:text/html,<script>x()</script>`, `data:text/html;base64,PHNjcmlwdD4=`, `data:image/svg+xml,<svg onload=x()>`, `data:image/png,x`,
	`//h/x`, `\\h\x`, `/\h/x`, `file:///etc/passwd`, `blob:x`, `filesystem:x`, `http:javascript:x()`, `http://h/"onmouseover="x()`, `x" onerror="x()`, `x' onerror='x()`,
}

// spots are where a payload, in the place of %s, may reach a page.
var spots = []string{
	"%s", "a %s b", "# %s", "%s\n===", "- %s", "> %s", "*%s*", "[%s](u)", "[a](%s)", "[a](<%s>)", "[a](u \"%s\")", "[a](u '%s')", "![%s](u)", "![a](%s)", "![a](<%s>)",
	"![a](u \"%s\")", "[a]\n\n[a]: %s '%s'", "![a]\n\n[a]: <%s> (%s)", "<%s>", "`%s`", "    %s", "```%s\n%s\n```", "```calc %s\n%s\n```", "{%s}", "{a %s}", "| %s |\n|--|\n| %s |",
	"| x: | %s |\n|--|--|\n| %s | %s |", "| %s: | a |\n|--|--|\n| b | {c %s} |", "a[^1]\n\n[^1]: %s", "a[^%s]\n\n[^%s]: b", "%s\n: %s", "- [x] %s", "~~%s~~",
	"<div>%s</div>", "<div>\n\n%s\n\n</div>", "<b title=\"%s\">a</b>", "<b title='%s'>a</b>", "<b title=%s>a</b>", "<details><summary>%s</summary></details>", "<!-- %s -->", "<%s", "</%s>",
	"## 2027-05-02 %s", "---\ntitle: %s\n---\n%s", "![{%s}](u \"{%s}\")",
}

// TestNothingRuns: no payload in any spot leaves a tag, an attribute or an
// address that is not on the list.
func TestNothingRuns(t *testing.T) {
	every := 1
	if testing.Short() || raceEnabled {
		every = 7
	}
	for i, spot := range spots {
		for j, payload := range payloads {
			if (i+j)%every != 0 {
				continue
			}
			src := []byte(strings.ReplaceAll(spot, "%s", payload))
			checkDocument(t, src)
			d := Parse(src)
			for _, s := range d.Sections {
				title := d.RenderTitle(s, loud{})
				if z := html.NewTokenizer(strings.NewReader(title)); title != "" && (z.Next() != html.TextToken || z.Next() != html.ErrorToken) {
					t.Errorf("title %q", title)
				}
			}
			if t.Failed() {
				t.Fatalf("in %q", src)
			}
		}
	}
}
