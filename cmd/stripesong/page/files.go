package page

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"path"
	"strings"
	"sync"
)

// kinds are the types of the page's own files; those of the system differ.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".svg":  "image/svg+xml",
}

// packed are the page's own files, each packed once.
var packed sync.Map

// file answers with one of the page's own files, packed for who takes that.
func file(name string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		text, err := files.ReadFile(name)
		if err != nil {
			http.Error(w, "there is no such page", http.StatusNotFound)
			return
		}
		w.Header().Set("Content-Type", kinds[path.Ext(name)])
		w.Header().Set("Vary", "Accept-Encoding")
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			w.Header().Set("Content-Encoding", "gzip")
			text = pack(name, text)
		}
		w.Write(text)
	}
}

func pack(name string, text []byte) []byte {
	if known, ok := packed.Load(name); ok {
		return known.([]byte)
	}
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	z.Write(text) // into memory, which never fails
	z.Close()
	packed.Store(name, b.Bytes())
	return b.Bytes()
}
