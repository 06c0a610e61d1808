# Everything a newcomer needs: make demo, make test. Needs Go and make only.
GO ?= go
BIN := bin/scarph

.PHONY: page build demo test bench bench-page vuln fmt clean

# The browser build that published pages carry. Inlining makes it a fifth larger and
# is not wanted there.
PAGE := notebook/site/dist
WASM := bin/page.wasm
page:
	GOOS=js GOARCH=wasm $(GO) build -trimpath -buildvcs=false -gcflags=all=-l -ldflags "-s -w" -o $(WASM) ./cmd/scarph-page
	gzip -9 -n -f $(WASM) && mv $(WASM).gz $(PAGE)/page.wasm.gz
	cp "$$($(GO) env GOROOT)/lib/wasm/wasm_exec.js" $(PAGE)/wasm_exec.js

build: page
	$(GO) build -trimpath -o $(BIN) ./cmd/scarph

demo: build
	$(BIN) serve examples/sorrel

test: page
	$(GO) vet ./...
	$(GO) test -race ./...

fmt:
	gofmt -w $$(git ls-files '*.go')

clean:
	rm -rf bin

# Ratios, each measured against its yardstick in the same run; bench-page keeps them.
bench: page
	$(GO) run ./cmd/scarph-bench

bench-page: page
	$(GO) run ./cmd/scarph-bench -o docs/performance.md

bench-page: page
	$(GO) run ./cmd/scarph-bench -o docs/performance.md
