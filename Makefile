# Everything a newcomer needs: make demo, make test. Needs Go and make only.
GO ?= go
BIN := bin/scarph

.PHONY: build demo test bench fmt clean

build:
	$(GO) build -trimpath -o $(BIN) ./cmd/scarph

demo: build
	$(BIN) serve examples/sorrel

test:
	$(GO) vet ./...
	$(GO) test -race ./...

fmt:
	gofmt -w $$(git ls-files '*.go')

clean:
	rm -rf bin

# Ratios, each measured against its yardstick in the same run.
bench:
	$(GO) test -run='^$$' -bench=. -benchtime=1s ./calc/lang ./kernel ./notebook ./notebook/markdown
