package live

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"path"
	"strings"
	"sync"

	"scarph/notebook"
	"scarph/notebook/photo"
)

// darkroom lets one picture at a time be worked on: each takes a good deal of memory.
type darkroom struct{ sync.Mutex }

// takePhoto puts a picture beside an entry: upright, without the camera's data, under
// the entry's name and a number.
func (s *visit) takePhoto(w http.ResponseWriter, r *http.Request) {
	f, ok := s.book.File(r.URL.Query().Get("path"))
	if !ok {
		refuse(w, http.StatusNotFound, "gone", "the entry is not there")
		return
	}
	src, err := io.ReadAll(r.Body)
	if err != nil {
		var big *http.MaxBytesError
		if errors.As(err, &big) {
			refuse(w, http.StatusRequestEntityTooLarge, "too-large", fmt.Sprintf("the picture is too large: %d MB is the most", photo.MaxBytes>>20))
			return
		}
		refuse(w, http.StatusBadRequest, "request", "the picture did not come through")
		return
	}
	s.leave() // a picture may take long to work on
	s.darkroom.Lock()
	defer s.darkroom.Unlock()
	p, err := photo.Upright(src, 0)
	if err != nil {
		refuse(w, http.StatusUnprocessableEntity, "photo", err.Error())
		return
	}
	base := strings.TrimSuffix(f.Path, path.Ext(f.Path))
	for n := 1; n < 10_000; n++ {
		name := fmt.Sprintf("%s-%d%s", base, n, p.Ext)
		c, err := s.change(func(n *notebook.Notebook) (notebook.Change, error) {
			return n.SaveText(r.Context(), "the photo "+path.Base(name), name, nil, p.Bytes)
		})
		var taken *notebook.ConflictError
		if errors.As(err, &taken) {
			continue
		}
		if err != nil {
			s.failed(w, err)
			return
		}
		s.tell(c, "")
		answer(w, map[string]any{"name": path.Base(name), "width": p.Width, "height": p.Height})
		return
	}
	refuse(w, http.StatusConflict, "photo", "there are too many photos beside this entry")
}
