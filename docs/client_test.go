package docs

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// python prepares a call of the client with the program on its path.
func python(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	interpreter, err := exec.LookPath("python3")
	if err != nil {
		if os.Getenv("SCARPH_NEEDS_PYTHON") != "" {
			t.Fatal("SCARPH_NEEDS_PYTHON is set, but there is no python3")
		}
		t.Skip("there is no python3 here")
	}
	scarph(t, ".", "", "functions", "frame_spacing") // it is built
	cmd := exec.Command(interpreter, append([]string{"client.py"}, args...)...)
	cmd.Env = append(os.Environ(), "PATH="+filepath.Dir(program)+string(filepath.ListSeparator)+os.Getenv("PATH"), "PYTHONIOENCODING=utf-8")
	return cmd
}

// TestClient lets the client work lines out.
func TestClient(t *testing.T) {
	out, err := python(t, laidOut(t), "thick = planking * 2", "inside - thick", "beam + 19", "length * 2").CombinedOutput()
	want := "7/8\"   (22.2 mm)\n4' ± 1/16\"   (1219.2 mm)\na number cannot be added to a length\nit waits for length\n"
	if err != nil || string(out) != want {
		t.Errorf("%v\n got %s\nwant %s", err, out, want)
	}
	if text, err := os.ReadFile("client.py"); err != nil || bytes.Count(text, []byte("\n")) > 60 {
		t.Error("the client is no longer a short one", err)
	}
}

// TestClientIsTold saves a file while the client listens.
func TestClientIsTold(t *testing.T) {
	dir := laidOut(t)
	cmd := python(t, dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}()
	lines := bufio.NewScanner(out)
	if !lines.Scan() || lines.Text() != "subscribed" {
		t.Fatalf("%q %v", lines.Text(), lines.Err())
	}
	save(t, filepath.Join(dir, "journal.md"), []byte(strings.Replace(smallJournal["journal.md"], "7/16", "3/8", 1)))
	for _, want := range []string{`planking: 7/16" -> 3/8"`, `inside: 4' 0 7/8" ± 1/16" -> 4' 1" ± 1/16"`} {
		if !lines.Scan() || lines.Text() != want {
			t.Fatalf("got %q, want %q: %v", lines.Text(), want, lines.Err())
		}
	}
}
