package site

import (
	"errors"
	"io/fs"
	"os"
)

// exchangeInTwo moves the old folder away and the new one in. When it is interrupted
// between the two, recoverOld puts the old one back at the next publishing.
func exchangeInTwo(aside, dir string) (old string, err error) {
	old = dir + oldMark
	if err := os.Rename(dir, old); err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
		old = ""
	}
	if err := os.Rename(aside, dir); err != nil {
		if old != "" {
			_ = os.Rename(old, dir) // nothing more can be done than say what went wrong
		}
		return "", err
	}
	return old, nil
}
