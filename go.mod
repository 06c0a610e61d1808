module scarph

go 1.26.0

require (
	github.com/expr-lang/expr v1.17.8 // indirect
	github.com/yuin/goldmark v1.8.7 // indirect
	golang.org/x/net v0.62.0 // indirect
)
