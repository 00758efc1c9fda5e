package whole

import (
	"fmt"
	"os"
	"path/filepath"
)

// InsideError is what [Create], [Folder] and [MakeFolders] return for what would lie
// in a folder that [Folder] made: with anything else in it, that folder could not be
// replaced any more.
type InsideError struct {
	Folder string // the one that was made, its path from the root
}

func (e *InsideError) Error() string {
	return fmt.Sprintf("it would lie in the plan's folder %q, which holds nothing else", e.Folder)
}

// Inside fails with an [*InsideError] where path lies in a folder that [Folder] made,
// at any depth; such a folder itself does not, unless it lies in another. Links are
// followed, and path need not be there.
func Inside(path string) error {
	for dir := filepath.Dir(real(path)); ; dir = filepath.Dir(dir) {
		if info, err := os.Lstat(filepath.Join(dir, listName)); err == nil &&
			info.Mode().IsRegular() {
			return &InsideError{dir}
		}
		if filepath.Dir(dir) == dir {
			return nil
		}
	}
}
