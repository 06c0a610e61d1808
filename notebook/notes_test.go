package notebook

import (
	"slices"
	"testing"

	"scarph/kernel"
)

// TestRoundedStep: a rounded size that is multiplied is remarked on; a rounded count is not.
func TestRoundedStep(t *testing.T) {
	text := "```calc\nrun = 10' 8\"\nspacing = nearest(run / 11, 1/16\")\nscrews = round_up(run / 3\", 1)\nend = spacing * 11\nboth_sides = 2 * screws\n```\n"
	notes := journalOf(t, map[string]string{"boat.md": text}).Notes(kernel.Now)
	if len(notes) != 1 || notes[0].Line != 5 {
		t.Errorf("remarks: %+v", notes)
	}
}

// TestTwoVersions: two versions of the same lines that stand in the text are remarked on,
// whatever their number; in a fence they are somebody's example.
func TestTwoVersions(t *testing.T) {
	both := TwoVersions + "\nThe keel is oak.\n== The other wrote: ==\nThe keel is larch.\n== Here both end ==\n"
	text := "# Boat\n\n" + both + "\n" + both + "\n```\n" + both + "```\n"
	notes := journalOf(t, map[string]string{"boat.md": text}).Notes(kernel.Now)
	if len(notes) != 2 || notes[0].Line != 3 || notes[1].Line != 9 || notes[0].Code != "two-versions" {
		t.Errorf("remarks: %+v", notes)
	}
}

// TestTypedSums: a number in the text that says what a sum came to when it was written is
// remarked on when the sum no longer does; what was never so, and what still is, is not.
func TestTypedSums(t *testing.T) {
	n := journalOf(t, map[string]string{
		"2027-01-02.md": "```calc\nrun = 157 1/2\"\nspacing = run / 11\nrake = 3 in\nslant = rake / 12 in\n```\nSo the frames come 14 5/16\" apart, or 363.7 mm, 12 of them; {spacing}. The first is at 14 1/4\", the rake 3 in. A rabbet of 2 in.\n",
		"2027-02-02.md": "```calc\nrevise run = 158 1/2\"\nspare = run - 150\"\n```\nThat leaves 8 1/2\" over; they had been 14 5/16\" apart.\n",
	})
	var said []string
	for _, d := range n.Notes(kernel.Now) {
		said = append(said, d.File+" "+d.Message)
	}
	want := []string{
		`2027-01-02.md 14 5/16" was spacing when this was written; it is 1' 2 7/16" shy now`,
		`2027-01-02.md 363.7 mm was spacing when this was written; it is 1' 2 7/16" shy now`,
	}
	if !slices.Equal(said, want) {
		t.Errorf("remarks: %q", said)
	}
	if early := n.Notes(0); len(early) > 0 {
		t.Errorf("on the first day: %+v", early)
	}
}
