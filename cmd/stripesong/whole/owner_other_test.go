//go:build !unix

package whole

import "io/fs"

func ownerOf(fs.FileInfo) [2]uint32 { return [2]uint32{} }
