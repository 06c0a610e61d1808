package notebook

import (
	"os"
	"path/filepath"
	"testing"

	"scarph/kernel"
)

// TestRoundedStep: a rounded size that is multiplied is remarked on; a rounded count is not.
func TestRoundedStep(t *testing.T) {
	path := filepath.Join(t.TempDir(), "boat.md")
	text := "```calc\nrun = 10' 8\"\nspacing = nearest(run / 11, 1/16\")\nscrews = round_up(run / 3\", 1)\nend = spacing * 11\nboth_sides = 2 * screws\n```\n"
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	notes := n.Notes(kernel.Now)
	if len(notes) != 1 || notes[0].Line != 5 {
		t.Errorf("remarks: %+v", notes)
	}
}

// TestTwoVersions: two versions of the same lines that stand in the text are remarked on,
// whatever their number; in a fence they are somebody's example.
func TestTwoVersions(t *testing.T) {
	path := filepath.Join(t.TempDir(), "boat.md")
	both := TwoVersions + "\nThe keel is oak.\n== The other wrote: ==\nThe keel is larch.\n== Here both end ==\n"
	text := "# Boat\n\n" + both + "\n" + both + "\n```\n" + both + "```\n"
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	notes := n.Notes(kernel.Now)
	if len(notes) != 2 || notes[0].Line != 3 || notes[1].Line != 9 || notes[0].Code != "two-versions" {
		t.Errorf("remarks: %+v", notes)
	}
}
