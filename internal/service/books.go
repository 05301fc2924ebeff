package service

import (
	"archive/zip"
	"bytes"
	"context"
	"io/fs"
	"sync"
)

// retained are the books quotes are made with, kept in the store by content, so
// that a quote can be recomposed after the shop has new ones.
type retained struct {
	folders []fs.FS
	mutex   sync.Mutex
	hashes  map[string][]string // by shop, once they are kept
}

// keep puts the books into the store and returns their hashes. It packs them
// once; a failure is tried again with the next quote.
func (r *retained) keep(ctx context.Context, h *handlers, shop string) ([]string, error) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if hashes, done := r.hashes[shop]; done {
		return hashes, nil
	}
	var hashes []string
	for _, folder := range r.folders {
		packed, err := packFolder(folder)
		if err != nil {
			return nil, err
		}
		hash, err := h.store.PutBook(ctx, shop, packed)
		if err != nil {
			return nil, err
		}
		hashes = append(hashes, hash)
	}
	if r.hashes == nil {
		r.hashes = map[string][]string{}
	}
	r.hashes[shop] = hashes
	return hashes, nil
}

// packFolder packs a folder's files into one archive, in order of name and
// without times, so that the same files give the same bytes. An archive opens
// as a folder again: zip.Reader is an fs.FS.
func packFolder(folder fs.FS) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	err := fs.WalkDir(folder, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		content, err := fs.ReadFile(folder, path)
		if err != nil {
			return err
		}
		w, err := z.CreateHeader(&zip.FileHeader{Name: path, Method: zip.Deflate})
		if err != nil {
			return err
		}
		_, err = w.Write(content)
		return err
	})
	if err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
