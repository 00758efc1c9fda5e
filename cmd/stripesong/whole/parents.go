package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// MakeFolders makes a folder and what is missing above it; undo takes away what
// this made, if nothing has been put there since.
func MakeFolders(dir string) (undo func(), err error) {
	if err := Inside(dir); err != nil {
		return nil, err
	}
	missing, err := missingFolders(filepath.Clean(dir))
	if err != nil {
		return nil, err
	}
	made := make(map[string]fs.FileInfo)
	undo = func() {
		for _, d := range missing {
			info, err := os.Lstat(d)
			if err == nil && info.IsDir() && made[d] != nil && os.SameFile(info, made[d]) {
				os.Remove(d)
			}
		}
	}
	for _, d := range slices.Backward(missing) {
		err := os.Mkdir(d, 0o777)
		if err == nil {
			made[d], _ = os.Lstat(d)
		} else if isFolder(d) != nil { // or it has just come into being
			undo()
			return nil, err
		}
	}
	return undo, nil
}

// missingFolders are dir and those above it that are not there, the lowest first;
// it fails where what is there above them is no folder.
func missingFolders(dir string) (missing []string, err error) {
	for err = isFolder(dir); errors.Is(err, fs.ErrNotExist); err = isFolder(dir) {
		missing = append(missing, dir)
		if filepath.Dir(dir) == dir {
			break
		}
		dir = filepath.Dir(dir)
	}
	return missing, err
}

// isFolder fails where a path does not lead to a folder. A link to what is not
// there, a disk that was taken out perhaps, is not the same as nothing at all.
func isFolder(path string) error {
	info, err := os.Stat(path)
	if err == nil && !info.IsDir() {
		return fmt.Errorf("%q is a file, not a folder", path)
	}
	link, failed := os.Lstat(path)
	if err != nil && failed == nil && link.Mode()&fs.ModeSymlink != 0 {
		return fmt.Errorf("%q is a link to what is not there", path)
	}
	return err
}
