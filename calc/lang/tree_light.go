//go:build js

package lang

func parseTree(text []rune) (*tree, *treeError) { return readTree(text) }
