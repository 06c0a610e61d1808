package site

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"sync"
)

// digest tells the lists and the files of data of two publishings apart. They are made
// of the lines that may be read, with the addresses of their entries, of the settings,
// and of the names of the pages that there are; all that is published as well, so that
// the digest tells nothing that is private. It is "" where a page may say more than
// that, the place of a mistake in its file, and where the program that makes the pages
// cannot tell itself from another.
func (s *series) digest(cargo []byte) string {
	program := program()
	if program == "" || len(s.report.Problems) > 0 {
		return ""
	}
	rest, err := json.Marshal([]any{s.set, s.n.Title(), s.nav("index.html"), len(s.dated) > 0, s.engine})
	if err != nil {
		return ""
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%d\n%s\n%s", program, len(rest), rest, cargo))
	return hex.EncodeToString(sum[:16])
}

// program is the hash of the running program, "" where it cannot be read.
var program = sync.OnceValue(func() string {
	name, err := os.Executable()
	if err != nil {
		return ""
	}
	f, err := os.Open(name)
	if err != nil {
		return ""
	}
	defer func() { _ = f.Close() }()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return ""
	}
	return hex.EncodeToString(h.Sum(nil))
})

// unlessSame makes files, or keeps those of the site before when they were made of the
// same. The first of the names stands for all.
func (s *series) unlessSame(names []string, make func() error) error {
	if s.same == "" {
		return make()
	}
	mark := "of " + names[0]
	if of, ok := s.out.old(mark); ok && string(of) == s.same && s.out.keepWhole(names) {
		s.out.remember(mark, of)
		return nil
	}
	if err := make(); err != nil {
		return err
	}
	s.out.remember(mark, []byte(s.same))
	return nil
}
