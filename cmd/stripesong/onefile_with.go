//go:build onefile

package main

import _ "embed"

// builtOneFile is the page as one file, which .ci/release puts there.
//
//go:embed built/stripesong.html
var builtOneFile []byte
