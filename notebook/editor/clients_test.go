package editor

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"scarph/notebook/rpc"
)

// TestMain lets this very program be the server that other programs' clients start.
func TestMain(m *testing.M) {
	if os.Getenv("SCARPH_SERVES_AN_EDITOR") != "" {
		status, _ := New(rpc.NewConn(os.Stdin, os.Stdout, rpc.ContentLength), "test").Run(context.Background())
		os.Exit(status)
	}
	os.Exit(m.Run())
}

// need finds a program, or skips the test; where the surroundings promise the program,
// it fails.
func need(t *testing.T, name, promise string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv(promise) != "" {
			t.Fatalf("%s is set, but there is no %s", promise, name)
		}
		t.Skipf("there is no %s here", name)
	}
	return path
}

func lay(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// TestProtocolPackage lets the published protocol package ask everything there is.
func TestProtocolPackage(t *testing.T) {
	node := need(t, "node", "SCARPH_NEEDS_NODE")
	modules := os.Getenv("SCARPH_NODE_MODULES")
	if modules == "" {
		modules = "../../node_modules"
	}
	modules, err := filepath.Abs(modules)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(modules, "vscode-languageserver-protocol")); err != nil {
		if os.Getenv("SCARPH_NEEDS_NODE") != "" {
			t.Fatal("SCARPH_NEEDS_NODE is set, but the package is not installed: npm ci")
		}
		t.Skip("the protocol package is not installed: npm ci")
	}
	for _, encoding := range []string{"utf-16", "utf-8"} {
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
		defer cancel()
		cmd := exec.CommandContext(ctx, node, "testdata/client.cjs", encoding, lay(t, wren), os.Args[0])
		cmd.Env = append(os.Environ(), "NODE_PATH="+modules, "SCARPH_SERVES_AN_EDITOR=1")
		out, err := cmd.CombinedOutput()
		if err != nil || !strings.Contains(string(out), " 0 failures") {
			t.Errorf("%s: %v\n%s", encoding, err, out)
			continue
		}
		_, said, _ := strings.Cut(string(out), "said ")
		asked := strings.Fields(said)
		for name := range requests {
			if !slices.Contains(asked, name) {
				t.Errorf("%s was never asked", name)
			}
		}
		for name := range notifications {
			if !slices.Contains(asked, name) {
				t.Errorf("%s was never said", name)
			}
		}
	}
}

// TestNeovim works in a real editor, without a screen.
func TestNeovim(t *testing.T) {
	nvim := need(t, "nvim", "SCARPH_NEEDS_EDITOR")
	dir := lay(t, wren)
	report := filepath.Join(t.TempDir(), "report")
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, nvim, "--headless", "-u", "NONE", "-i", "NONE", "-n", "-c", "luafile testdata/init.lua")
	home := t.TempDir()
	cmd.Env = append(os.Environ(), "FOLDER="+dir, "REPORT="+report, "SERVER="+os.Args[0], "SCARPH_SERVES_AN_EDITOR=1",
		"HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_STATE_HOME="+home, "XDG_DATA_HOME="+home, "XDG_CACHE_HOME="+home)
	out, err := cmd.CombinedOutput()
	got, readErr := os.ReadFile(report)
	if err != nil || readErr != nil {
		t.Fatalf("%v %v\n%s", err, readErr, out)
	}
	for _, want := range []string{
		"encoding: utf-16",
		"hover: **inside** · derived · 4' 0 7/8\"",
		"completion: beam",
		"definition: 2027-05-02-measured.md",
		"diagnostic: planking has a reading already",
		"renamed: clear = beam - 2 * planking",
		"laid out: drawn beam = 4' 1 1/2\"   # from the plan",
		"brought over: true",
		"stopped: true",
	} {
		if !strings.Contains(string(got), want) {
			t.Errorf("no %q in\n%s\n%s", want, got, out)
		}
	}
}

// TestNeovimSettings loads the settings that docs/editors.md gives, and nothing else.
func TestNeovimSettings(t *testing.T) {
	nvim := need(t, "nvim", "SCARPH_NEEDS_EDITOR")
	page, err := os.ReadFile("../../docs/editors.md")
	if err != nil {
		t.Fatal(err)
	}
	_, settings, ok := strings.Cut(string(page), "```lua\n")
	settings, _, closed := strings.Cut(settings, "```")
	if !ok || !closed {
		t.Fatal("the page has no settings")
	}
	home := t.TempDir()
	// what came with 0.8, for the editor of an older system
	const older = `vim.lsp.start = vim.lsp.start or function(c)
  vim.lsp.buf_attach_client(0, vim.lsp.start_client(c))
end
`
	init := filepath.Join(home, "init.lua")
	script := filepath.Join(home, "scarph")
	for name, text := range map[string]string{
		init:   older + settings,
		script: "#!/bin/sh\nexec '" + os.Args[0] + "'\n",
		filepath.Join(home, "look.lua"): `vim.wait(20000, function()
  local n = #vim.diagnostic.get(0)
  return n > 0
end, 20)
for _, d in ipairs(vim.diagnostic.get(0)) do
  io.stdout:write("diagnostic: " .. d.message .. "\n")
end
vim.cmd("qall!")
`,
	} {
		if err := os.WriteFile(name, []byte(text), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	files := map[string]string{"journal.md": wren["journal.md"], "late.md": "```calc\nplanking = 1/2\"\n```\n"}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, nvim, "--headless", "-u", init, "-i", "NONE", "-n", "late.md", "-c", "luafile "+filepath.Join(home, "look.lua"))
	cmd.Dir = lay(t, files)
	cmd.Env = append(os.Environ(), "SCARPH_SERVES_AN_EDITOR=1", "PATH="+home+string(filepath.ListSeparator)+os.Getenv("PATH"),
		"HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_STATE_HOME="+home, "XDG_DATA_HOME="+home, "XDG_CACHE_HOME="+home)
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "diagnostic: planking has a reading already") {
		t.Errorf("%v\n%s", err, out)
	}
}
