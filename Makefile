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

# Known faults in the modules and in Go itself, as far as our calls reach them. It asks
# the list at VULNDB over the network, so it is no part of make test; where that list
# cannot be reached nothing is known, and the target fails.
VULNDB ?= https://vuln.go.dev
vuln:
	GOBIN=$(CURDIR)/bin $(GO) install golang.org/x/vuln/cmd/govulncheck@v1.9.0
	@bin/govulncheck -db $(VULNDB) ./...; s=$$?; case $$s in \
	0) ;; \
	3) echo "make vuln: the faults above concern this program" >&2; exit 3 ;; \
	*) echo "make vuln: nothing was checked, for the reason above; is $(VULNDB) to be reached from here?" >&2; exit $$s ;; esac
