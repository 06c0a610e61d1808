# Everything a newcomer needs: make demo, make test. Needs Go and make only.
GO ?= go
BIN := bin/scarph

.PHONY: page build demo test plain raced bench bench-page vuln reproduce fmt clean

# The browser build that published pages carry. Inlining makes it a fifth larger and is
# not wanted there but in the runtime, which is most of what a browser must compile to start.
PAGE := notebook/site/dist
WASM := bin/page.wasm
page:
	GOOS=js GOARCH=wasm $(GO) build -trimpath -buildvcs=false -gcflags=all=-l -gcflags=runtime= -ldflags "-s -w" -o $(WASM) ./cmd/scarph-page
	gzip -9 -n -f $(WASM) && mv $(WASM).gz $(PAGE)/page.wasm.gz
	cp "$$($(GO) env GOROOT)/lib/wasm/wasm_exec.js" $(PAGE)/wasm_exec.js

build: page
	$(GO) build -trimpath -o $(BIN) ./cmd/scarph

# Another port: make demo LISTEN=7434
LISTEN ?= 7433
demo: build
	$(BIN) serve examples/sorrel --listen $(LISTEN)

# Every test runs once: under the race detector in the packages where goroutines meet, and
# plainly in all others, in a third to a tenth of the time. Of those others, the tests in
# which goroutines meet all the same (MEET) run a second time, under the detector. Both
# halves run side by side, each on half of the cores, the longest packages first; vet has
# been before, so go test leaves it out.
RACED := ./notebook/live ./notebook ./kernel ./notebook/editor ./notebook/rpc ./notebook/stdio
PLAIN = $(filter-out $(RACED:./%=scarph/%),$(shell $(GO) list ./...))
MEET := ^(TestSoak|TestPrompt|TestPromptFollowsTheJournal|TestStopped|TestOnlyWhatChangedIsWritten)$$
HALF := $(shell echo $$((($$(getconf _NPROCESSORS_ONLN) + 1) / 2)))
test: page
	$(GO) vet ./...
	@$(MAKE) --no-print-directory -j2 plain raced
plain:
	$(GO) test -vet=off -p $(HALF) ./notebook/site ./notebook/attack $(PLAIN)
raced:
	$(GO) test -vet=off -p $(HALF) -race $(RACED)
	$(GO) test -vet=off -p $(HALF) -race -run '$(MEET)' ./cmd/scarph ./notebook/site

fmt:
	gofmt -w $$(git ls-files '*.go')

clean:
	rm -rf bin

# Ratios, each measured against its yardstick in the same run; bench-page keeps them.
bench: page
	$(GO) run ./cmd/scarph-bench

bench-page: page
	$(GO) run ./cmd/scarph-bench -o docs/performance.md

# Two builds from nothing in two places give the same bytes.
reproduce: page
	SCARPH_REPRODUCE=1 $(GO) test -count=1 -v -timeout 30m -run '^TestSameBuildTwice$$' .

# Known faults in the modules and in the Go that go.mod names, as far as our calls reach
# them. The list is asked for at VULNDB, or else fetched as the module in which the Go team
# keeps it; it is no part of make test, for it needs the network.
VULNDB ?= https://vuln.go.dev
CHECK := GOTOOLCHAIN=auto bin/govulncheck
vuln:
	GOBIN=$(CURDIR)/bin $(GO) install golang.org/x/vuln/cmd/govulncheck@v1.9.0
	@$(CHECK) -db $(VULNDB) ./...; s=$$?; \
	if [ $$s != 0 ] && [ $$s != 3 ]; then \
		echo "make vuln: $(VULNDB) is not to be reached; the list comes as a module" >&2; \
		list=$$(cd / && $(GO) mod download -json golang.org/x/vulndb@latest | sed -n 's/.*"Dir": "\(.*\)",/\1/p'); \
		$(CHECK) -db "file://$$list/data/osv" ./...; s=$$?; \
	fi; \
	case $$s in \
	0) ;; \
	3) echo "make vuln: the faults above concern this program" >&2 ;; \
	*) echo "make vuln: nothing was checked, for the reason above" >&2 ;; \
	esac; exit $$s
