package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
)

// crops reads the pictures that a file of measurements names, beside it or in a
// folder there, with the place in it of one that can't be read.
func (s *source) crops(m *brief.Measured) (calibrate.Photos, error) {
	photos := make(calibrate.Photos)
	for _, p := range m.Photos() {
		crop, err := s.crop(p.File)
		if err != nil {
			return nil, m.Wrong(p.Key, fmt.Sprintf("%q: %v", p.File, err), photoHint)
		}
		photos[p.Key] = crop
	}
	return photos, nil
}

func (s *source) crop(name string) (palette.Crop, error) {
	if !filepath.IsLocal(name) {
		return palette.Crop{}, errors.New("it does not lie beside the measurements")
	}
	f, err := os.Open(filepath.Join(s.dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return palette.Crop{}, errors.New("there is no such file")
	}
	if err != nil {
		return palette.Crop{}, errors.New("it can't be read")
	}
	defer f.Close()
	return palette.ReadCrop(f, palette.PhotoLimits)
}
