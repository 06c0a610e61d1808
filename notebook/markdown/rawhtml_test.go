package markdown

import (
	"strings"
	"testing"
)

func TestRawHTML(t *testing.T) {
	for src, want := range map[string]string{
		// Within a line.
		"H<sub>2</sub>O <kbd>a</kbd>":        "<p>H<sub>2</sub>O <kbd>a</kbd></p>\n",
		"a<br>b<br/>c<wbr />":                "<p>a<br />b<br />c<wbr /></p>\n",
		"<abbr title=\"3 < 4 & 5\">x</abbr>": "<p><abbr title=\"3 &lt; 4 &amp; 5\">x</abbr></p>\n",
		"<B>a</b>":                           "<p><b>a</b></p>\n",
		"<b>a <i>b</b> c</i>":                "<p><b>a &lt;i&gt;b</b> c&lt;/i&gt;</p>\n",
		"<b>a":                               "<p>&lt;b&gt;a</p>\n",
		"a</b>":                              "<p>a&lt;/b&gt;</p>\n",
		"*<b>a* b</b>":                       "<p><em>&lt;b&gt;a</em> b&lt;/b&gt;</p>\n",
		"*a <b>b* c</b> <b>d</b>":            "<p><em>a &lt;b&gt;b</em> c&lt;/b&gt; <b>d</b></p>\n",
		"a <div>b</div>":                     "<p>a &lt;div&gt;b&lt;/div&gt;</p>\n",
		"a <hr> b":                           "<p>a &lt;hr&gt; b</p>\n",
		"a <!-- hidden --> b":                "<p>a  b</p>\n",
		"a <? b ?> <!X y> <![CDATA[z]]>":     "<p>a &lt;? b ?&gt; &lt;!X y&gt; &lt;![CDATA[z]]&gt;</p>\n",
		"<span lang=de dir=rtl class=x id=y style=z onclick=w>a</span>": "<p><span lang=\"de\" dir=\"rtl\">a</span></p>\n",
		"<span dir=x>a</span>":             "<p><span>a</span></p>\n",
		"<b title='a' title='b'>c</b>":     "<p><b title=\"a\">c</b></p>\n",
		"<script>alert(1)</script>":        "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>\n",
		"| a |\n|--|\n| <b>c |\n| d</b> |": "", // checked below: tags do not leave their cell
		// Blocks.
		"<div>a</div>":                    "<div>a</div>",
		"<div>\n\n*a*\n\n</div>":          "<div>\n<p><em>a</em></p>\n</div>",
		"<div>\n\n*a*":                    "<p>&lt;div&gt;\n</p>\n|<p><em>a</em></p>\n",
		"*a*\n\n</div>":                   "<p><em>a</em></p>\n|<p>&lt;/div&gt;</p>\n",
		"<b>\n\n*a*\n\n</b>":              "<p>&lt;b&gt;\n</p>\n|<p><em>a</em></p>\n|<p>&lt;/b&gt;</p>\n",
		"<p>a <b>c</b></p>":               "<p>a <b>c</b></p>",
		"<p>\n\na\n\n</p>":                "<p>&lt;p&gt;\n</p>\n|<p>a</p>\n|<p>&lt;/p&gt;</p>\n",
		"<div><p>a<div>b</div></p></div>": "<div><p>a&lt;div&gt;b&lt;/div&gt;</p></div>",
		"<hr>":                            "<hr />",
		"<!-- hidden\n\nall of it -->":    "",
		"<details open>\n<summary>a *b*</summary>\nc\n</details>": "<details open=\"\">\n<summary>a *b*</summary>\nc\n</details>",
		"<summary>a</summary>":            "<p>&lt;summary&gt;a&lt;/summary&gt;</p>\n",
		"<dl><dt>a</dt><dd>b</dd></dl>":   "<dl><dt>a</dt><dd>b</dd></dl>",
		"<dl><div>a</div><dt>b</dt></dl>": "<dl>&lt;div&gt;a&lt;/div&gt;<dt>b</dt></dl>",
		"<dd>a</dd>":                      "<p>&lt;dd&gt;a&lt;/dd&gt;</p>\n",
		"<figure>\n\n![a](b)\n\n<figcaption>c</figcaption>\n</figure>": "<figure>\n<figure><img src=\"b\" alt=\"a\" loading=\"lazy\" /></figure>\n<figcaption>c</figcaption>\n</figure>",
		"<table><tr><td>a</td></tr></table>":                           "<p>&lt;table&gt;&lt;tr&gt;&lt;td&gt;a&lt;/td&gt;&lt;/tr&gt;&lt;/table&gt;</p>\n",
		"<style>\n\n*a*\n</style>":                                     "<p>&lt;style&gt;\n\n*a*\n&lt;/style&gt;</p>\n",
		"<div>&amp; &copy; & &x; < > \"</div>":                         "<div>&amp; &copy; &amp; &x; &lt; &gt; &quot;</div>",
		"> <div>\n\na":                                                 "<blockquote>\n<p>&lt;div&gt;\n</p>\n</blockquote>\n|<p>a</p>\n",
	} {
		d := Parse([]byte(src))
		got := strings.Join(d.Render(d.Sections[0], nil, Options{}), "|")
		if want != "" && got != want {
			t.Errorf("%s:\n%q\nwant\n%q", src, got, want)
		}
		checkDocument(t, []byte(src))
	}
}

// TestHiddenInHTML: what raw HTML swallows is said, for an entry or a sum would
// be lost unseen.
func TestHiddenInHTML(t *testing.T) {
	for src, want := range map[string]string{
		"<details>\n```calc\na = 1\n```\n</details>": "```calc",
		"</details>\n## 2027-05-02 Day\n":            "## 2027-05-02 Day",
		"<div>\r\n> ```calc\r\n\r\n</div>":           "",
		"<div>\n```go\n# Title\n</div>":              "",
		"<!--\n```calc\na = 1\n```\n-->":             "",
	} {
		d := Parse([]byte(src))
		got := ""
		for _, p := range d.Problems {
			got += d.text(p.Span)
		}
		if got != want {
			t.Errorf("%q: %q, want %q", src, got, want)
		}
	}
}
