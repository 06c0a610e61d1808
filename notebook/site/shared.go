package site

import (
	"bytes"
	"compress/gzip"
	"embed"
	"encoding/base64"
	"io"

	"scarph/notebook/assets"
)

// dist holds the browser build, when the program was made with it; see its README.
//
//go:embed dist
var dist embed.FS

// enginePath is the browser build as the program carries it.
const (
	enginePath = "dist/page.wasm.gz"
	loaderPath = "dist/wasm_exec.js"
)

// hasEngine reports whether the program carries the browser build.
func hasEngine() bool {
	_, err := dist.Open(enginePath)
	return err == nil
}

// Engine returns the browser build and the script that loads it; false when the
// program was made without them. It is for tests.
func Engine() (wasm []byte, loader string, ok bool) {
	packed, err := dist.ReadFile(enginePath)
	if err != nil {
		return nil, "", false
	}
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, "", false
	}
	if wasm, err = io.ReadAll(z); err != nil {
		return nil, "", false
	}
	js, err := dist.ReadFile(loaderPath)
	return wasm, string(js), err == nil
}

// writeShared writes what all pages use: the look, the script, and what the browser
// build needs, which is loaded only when a reader looks at a number to try it.
func (s *series) writeShared() error {
	for _, name := range []string{"journal.css", "reader.css", "reader.js", "mark.svg"} {
		data, err := assets.Files.ReadFile(name)
		if err != nil {
			return err
		}
		if err := s.out.put("assets/"+name, data); err != nil {
			return err
		}
	}
	if !s.engine {
		return nil
	}
	packed, err := dist.ReadFile(enginePath)
	if err != nil {
		return err
	}
	loader, err := dist.ReadFile(loaderPath)
	if err != nil {
		return err
	}
	for _, f := range []struct {
		name string
		data []byte
	}{
		{"assets/engine.wasm.gz", packed},
		// a page on a memory stick may load scripts and nothing else
		{"assets/engine.js", []byte(`scarphEngine("` + base64.StdEncoding.EncodeToString(packed) + "\");\n")},
		{"assets/wasm_exec.js", loader},
		{"assets/cargo.js", append(append([]byte("scarphCargo("), bytes.TrimSpace(s.packed)...), ");\n"...)},
	} {
		if err := s.out.put(f.name, f.data); err != nil {
			return err
		}
	}
	return nil
}
