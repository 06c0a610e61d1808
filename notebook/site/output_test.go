package site_test

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// asChild is the variable by which a test starts this binary again to publish: the
// journal and the folder, one a line.
const asChild = "SCARPH_TEST_PUBLISH"

// publishAsChild publishes as the program does, in a process that may be killed.
func publishAsChild(job string) int {
	journal, out, _ := strings.Cut(job, "\n")
	n, err := notebook.Open(journal)
	if err == nil {
		fmt.Println("begins")
		_, err = site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true, Progress: os.Stderr})
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

func child(t *testing.T, journal, out string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), asChild+"="+journal+"\n"+out)
	return cmd
}

// same reports where two sites differ, "" when they do not.
func same(a, b map[string][]byte) string {
	for _, name := range slices.Sorted(maps.Keys(a)) {
		if _, ok := b[name]; !ok {
			return name + " is missing"
		}
		if !bytes.Equal(a[name], b[name]) {
			return name + " differs"
		}
	}
	if len(a) != len(b) {
		return "there are more files"
	}
	return ""
}

// TestInterruptedPublishing kills publishing at moments that nobody chose; what stands
// in the folder is the site before or the site after, whole.
func TestInterruptedPublishing(t *testing.T) {
	journals := [2]string{wrenJournal(t), wrenJournal(t)}
	save(t, filepath.Join(journals[1], "journal.md"), strings.ReplaceAll(wren["journal.md"], `4' 6"`, `4' 9"`))
	if err := os.Remove(filepath.Join(journals[1], "2027-05-09.md")); err != nil {
		t.Fatal(err)
	}
	save(t, filepath.Join(journals[1], "2027-06-01-new.md"), "Once more, {beam}.\n")
	var sites [2]map[string][]byte
	for i, j := range journals {
		for _, name := range []string{"side.JPG", "on the beach.jpg", "plan.png"} { // of one day in both, as a copy of the journal keeps it
			if err := os.Chtimes(filepath.Join(j, "photos", name), time.Time{}, time.Unix(1_800_000_000, 0)); err != nil {
				t.Fatal(err)
			}
		}
		sites[i] = readSite(t, publish(t, j))
	}
	parent := t.TempDir()
	out := filepath.Join(parent, "site")
	publishTo(t, journals[1], out)
	start := time.Now()
	publishTo(t, journals[0], out)
	takes := time.Since(start)
	rounds, killed := 10, 0
	if testing.Short() {
		rounds = 4
	}
	for i := range rounds {
		cmd := child(t, journals[(i+1)%2], out)
		said, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if _, err := bufio.NewReader(said).ReadString('\n'); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(rand.Int64N(2*int64(takes) + 1)))
		_ = cmd.Process.Kill() // it may have ended
		if cmd.Wait() != nil {
			killed++
		}
		now := readSite(t, out)
		if a, b := same(sites[0], now), same(sites[1], now); a != "" && b != "" {
			t.Fatalf("round %d: neither site stands there: %s; %s", i, a, b)
		}
	}
	t.Logf("%d of %d were killed", killed, rounds)
	publishTo(t, journals[1], out)
	if d := same(sites[1], readSite(t, out)); d != "" {
		t.Error("after all:", d)
	}
	list, err := os.ReadDir(parent)
	if err != nil || len(list) != 1 {
		t.Errorf("beside the site stands %v", list)
	}
}

// TestStopped gives up when asked to; the site stays as it was.
func TestStopped(t *testing.T) {
	journal := wrenJournal(t)
	out := publish(t, journal)
	before := readSite(t, out)
	save(t, filepath.Join(journal, "2027-06-01-new.md"), "Once more.\n")
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	stop := make(chan struct{})
	close(stop)
	r, err := site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true, Stop: stop})
	if err == nil || !strings.Contains(err.Error(), "as it was") || r.Done {
		t.Errorf("%+v, %v", r, err)
	}
	if d := same(before, readSite(t, out)); d != "" {
		t.Error(d)
	}
	if list, _ := os.ReadDir(filepath.Dir(out)); len(list) != 1 {
		t.Errorf("beside the site stands %v", list)
	}
}

// infos are the files of a site as the disk has them.
func infos(t *testing.T, out string) map[string]os.FileInfo {
	t.Helper()
	list := map[string]os.FileInfo{}
	for name := range readSite(t, out) {
		info, err := os.Stat(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		list[name] = info
	}
	return list
}

// changed lists the files that are other files than before, without the manifest.
func changed(before, after map[string]os.FileInfo) (written, removed []string) {
	for name, b := range after {
		if a := before[name]; name != ".scarph-site.json" && (a == nil || !os.SameFile(a, b) || !a.ModTime().Equal(b.ModTime())) {
			written = append(written, name)
		}
	}
	for name := range before {
		if after[name] == nil {
			removed = append(removed, name)
		}
	}
	slices.Sort(written)
	slices.Sort(removed)
	return written, removed
}

// TestOnlyWhatChangedIsWritten changes the journal a little at a time.
func TestOnlyWhatChangedIsWritten(t *testing.T) {
	journal := wrenJournal(t)
	out := filepath.Join(t.TempDir(), "site")
	first := publishTo(t, journal, out)
	if first.Kept != 0 || first.Removed != 0 || first.Written != len(readSite(t, out))-1 || first.Photos != 3 {
		t.Errorf("%+v", first)
	}
	// others' files in the folder stay: a domain's name, a repository
	save(t, filepath.Join(out, "CNAME"), "boats.example.org\n")
	save(t, filepath.Join(out, ".git/HEAD"), "ref\n")
	before := infos(t, out)
	step := func(what string, change func(), want []string, gone []string) {
		t.Helper()
		change()
		r := publishTo(t, journal, out)
		after := infos(t, out)
		written, removed := changed(before, after)
		if strings.Join(written, " ") != strings.Join(want, " ") || strings.Join(removed, " ") != strings.Join(gone, " ") {
			t.Errorf("%s: written %q, removed %q", what, written, removed)
		}
		if r.Written != len(written) || r.Removed != len(removed) || r.Kept != len(after)-3-len(written) {
			t.Errorf("%s: the report says %+v", what, r)
		}
		before = after
	}
	at := func(name string) string { return filepath.Join(journal, name) }
	step("nothing", func() {}, nil, nil)
	step("a word", func() {
		save(t, at("2027-05-09.md"), strings.Replace(wren["2027-05-09.md"], "fair", "market", 1))
	}, []string{"2027-05-09.html", "feed.xml", "search-index.js"}, nil)
	step("a note", func() {
		save(t, at("2027-05-09-again.md"), strings.ReplaceAll(strings.Replace(wren["2027-05-09-again.md"], "frames = 8", "frames = 8   # one more", 1), "~~~", "```"))
	}, []string{"2027-05-09-again.html", "assets/cargo.js", "dimensions.html", "feed.xml", "history.html", "search-index.js", "values.csv", "values.json"}, nil)
	step("the same photo, saved again", func() {
		save(t, at("photos/side.JPG"), snapshot(t, 800, 600, 3, true, "a camera"))
	}, nil, nil)
	old := []string{}
	for name := range before {
		if strings.HasPrefix(name, "photos/") && strings.HasSuffix(name, ".jpg") {
			old = append(old, name)
		}
	}
	if len(old) != 5 { // 800 × 600 on its side in two widths, 1700 × 300 in three
		t.Errorf("the copies are %q", old)
	}
	if err := os.WriteFile(filepath.Join(out, "2027-05-09.html"), []byte("damaged"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(out, old[0])); err != nil {
		t.Fatal(err)
	}
	delete(before, old[0])
	func() {
		r := publishTo(t, journal, out)
		after := infos(t, out)
		if written, _ := changed(before, after); !slices.Contains(written, "2027-05-09.html") || !slices.Contains(written, old[0]) || r.Written != len(written) {
			t.Errorf("what was damaged is not written anew: %q, %+v", written, r)
		}
		before = after
	}()
	if err := os.Remove(at("2027-05-09-again.md")); err != nil {
		t.Fatal(err)
	}
	publishTo(t, journal, out)
	files := readSite(t, out)
	if _, still := files["2027-05-09-again.html"]; still {
		t.Error("the page of an entry that is gone still stands")
	}
	for name, data := range files {
		if strings.Contains(string(data), "2027-05-09-again") {
			t.Errorf("%s leads to an entry that is gone", name)
		}
	}
	if string(files["CNAME"]) != "boats.example.org\n" || string(files[".git/HEAD"]) != "ref\n" {
		t.Error("others' files are gone")
	}
}

// TestFoldersThatAreRefused keeps publish from writing over what it did not write.
func TestFoldersThatAreRefused(t *testing.T) {
	journal := wrenJournal(t)
	full := t.TempDir()
	save(t, filepath.Join(full, "thesis.txt"), "years of work")
	for _, out := range []string{full, journal, filepath.Dir(journal)} {
		n, err := notebook.Open(journal)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true}); err == nil {
			t.Errorf("%s is written over", out)
		}
	}
	if data, err := os.ReadFile(filepath.Join(full, "thesis.txt")); err != nil || string(data) != "years of work" {
		t.Error("what stood there is lost")
	}
	if _, err := os.Stat(filepath.Join(journal, "index.html")); !errors.Is(err, os.ErrNotExist) {
		t.Error("the journal's own folder was written to")
	}
	// a folder inside of the journal is well, and is no part of the journal
	inside := filepath.Join(journal, "_site")
	publishTo(t, journal, inside)
	if r := publishTo(t, journal, inside); r.Written != 0 {
		t.Errorf("%+v", r)
	}
}
