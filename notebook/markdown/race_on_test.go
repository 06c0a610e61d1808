//go:build race

package markdown

const raceEnabled = true
