package whole

import (
	"io/fs"
	"os"
	"syscall"
)

// otherNames tells whether a file has more names than one, as far as that is known.
func otherNames(path string, _ fs.FileInfo) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	var is syscall.ByHandleFileInformation
	err = syscall.GetFileInformationByHandle(syscall.Handle(f.Fd()), &is)
	return err == nil && is.NumberOfLinks > 1
}
