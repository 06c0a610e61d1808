package notebook

import (
	"context"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"testing"
)

// TestOrderAfterChange changes files at random, one or several at a time: the entries stand
// as in a journal that is opened anew, and Structure is set just when their names, titles,
// days or number are others, or a setting.
func TestOrderAfterChange(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	dir := t.TempDir()
	day := func() string { return fmt.Sprintf("2027-0%d-0%d", 1+r.Intn(2), 1+r.Intn(3)) }
	text := func(i int) string {
		if i == 0 {
			return []string{"---\ntitle: Order\n---\n", "---\ntitle: Order\nunits: metric\n---\n", "# Order\n\n## 2027-01-02 In the title page\n\n```calc\nz = 1 in\n```\n"}[r.Intn(3)]
		}
		s := fmt.Sprintf("# Day %d\n\n```calc\na%d = %d in\n```\n", r.Intn(2), i, 1+r.Intn(9))
		switch r.Intn(4) {
		case 0:
			s = "---\ndate: " + day() + "\n---\n" + s
		case 1:
			s += "\n## " + day() + " More\n\n```calc\nb" + fmt.Sprint(i) + " = 1 in\n```\n"
		case 2:
			s = "---\ndraft: true\n---\n" + s
		}
		return s
	}
	names := []string{TitlePage}
	for i := 1; i < 6; i++ {
		names = append(names, fmt.Sprintf("%d-%s.md", i, day()))
	}
	n := (*Notebook)(nil)
	seen := func(n *Notebook) string {
		s := fmt.Sprintf("%+v\n", n.Settings())
		for i, e := range n.Entries() {
			if at, _ := n.Entry(e.Key); at != e || n.Order(e.Key) != i {
				t.Fatalf("%s is not found at its place %d", e.Key, i)
			}
			s += fmt.Sprintf("%s %q %s %v %s\n", e.Key, e.Title, e.Date, e.Draft, e.said)
		}
		return s
	}
	before := ""
	for round := range 400 {
		var changed []string
		for range 1 + r.Intn(2) {
			i := r.Intn(len(names))
			full := filepath.Join(dir, names[i])
			var err error
			if i > 0 && r.Intn(6) == 0 {
				if err = os.Remove(full); os.IsNotExist(err) {
					err = nil
				}
			} else {
				err = os.WriteFile(full, []byte(text(i)), 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
			changed = append(changed, names[i])
		}
		var c Change
		var err error
		if n == nil {
			n, err = Open(dir)
		} else {
			c, err = n.RefreshFiles(context.Background(), changed...)
		}
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		now := seen(n)
		if want := seen(fresh); now != want {
			t.Fatalf("round %d, %v changed:\n%s\nopened anew:\n%s", round, changed, now, want)
		}
		if round > 0 && c.Structure != (now != before) {
			t.Fatalf("round %d, %v changed: Structure is %v from\n%s\nto\n%s", round, changed, c.Structure, before, now)
		}
		before = now
	}
}
