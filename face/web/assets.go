package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"time"
)

//go:embed assets
var embedded embed.FS

// asset is a file that every page may ask for, by a name that changes with what
// is in it, so that it may be kept for ever.
type asset struct {
	name string // with the hash of its bytes before it
	kind string
	data []byte
}

// kinds are the types of assets, by their endings.
var kinds = map[string]string{
	".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".json": "application/manifest+json",
}

// styleSheet is all of the style in one file, in the order of the files' names.
const styleSheet = "bench.css"

// all are the assets by their plain names.
var all = gather()

func gather() map[string]asset {
	list := map[string]asset{}
	var style bytes.Buffer
	err := fs.WalkDir(embedded, "assets", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := embedded.ReadFile(file)
		if path.Ext(file) == ".css" {
			style.Write(data)
			return err
		}
		list[path.Base(file)] = newAsset(path.Base(file), data)
		return err
	})
	if err != nil {
		panic("web: the assets cannot be read")
	}
	list[styleSheet] = newAsset(styleSheet, style.Bytes())
	return list
}

func newAsset(name string, data []byte) asset {
	sum := sha256.Sum256(data)
	return asset{name: hex.EncodeToString(sum[:6]) + "/" + name, kind: kinds[path.Ext(name)], data: data}
}

// assetAt is where an asset is found.
func assetAt(name string) string {
	a, ok := all[name]
	if !ok {
		panic("web: a page asks for an asset that is not there")
	}
	return "/a/" + a.name
}

// assetPages answer for scripts, styles and fonts. A page of an older program may ask for one by its
// older name: it gets what is there now, not to be kept.
type assetPages struct{ *desk }

func (s *assetPages) routes(t *table) {
	t.HandleFunc("GET /a/{hash}/{name}", func(w http.ResponseWriter, r *http.Request) {
		a, ok := all[r.PathValue("name")]
		if !ok {
			http.NotFound(w, r)
			return
		}
		if a.name == r.PathValue("hash")+"/"+r.PathValue("name") {
			w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
		}
		w.Header().Set("Content-Type", a.kind)
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(a.data))
	})
}
