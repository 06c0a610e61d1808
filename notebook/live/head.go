package live

import (
	"net/http"
	"strings"

	"scarph/kernel"
)

// headless is the refusal of a save by which settings at the top of a file would be
// lost, until somebody says that they shall be.
type headless struct {
	kernel.Fault
	Lost []string `json:"lost"`
	// Mended is the text with the head that the file has.
	Mended string `json:"mended"`
}

// askAboutHead answers with the question whether the head of a file shall go.
func askAboutHead(w http.ResponseWriter, now, text string, lost []string) {
	z := headless{Fault: kernel.Fault{Code: "head", Message: "saved like this, " + strings.Join(lost, ", and ")}, Lost: lost, Mended: withHead(now, text)}
	send(w, http.StatusConflict, z)
}

// withHead gives a text the head that the text before it had, in the place of what is
// left of it.
func withHead(before, text string) string {
	head, _ := cutHead(before)
	_, body := cutHead(text)
	lines := strings.Split(body, "\n")
	if body == text { // its head is none any more: some lines of it may be left
		ofHead, first := strings.Count(head, "\n"), true
		var rest []string
		for i, k := range matching(strings.Split(before, "\n"), lines) {
			if first = first && k < 0; first { // something may have been typed before its first line
				lines[i] = strings.TrimSuffix(lines[i], "---")
			}
			if k < 0 || k >= ofHead {
				rest = append(rest, lines[i])
			}
		}
		lines = rest
	}
	return head + strings.Join(lines, "\n")
}
