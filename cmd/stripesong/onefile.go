package main

import (
	"context"
	"fmt"
	"path/filepath"

	"stripesong/cmd/stripesong/page"
	"stripesong/cmd/stripesong/screen"
)

// writeOneFile writes the page as one file that opens on a brief, which it has planned
// first, so that the file opens.
func (p *serving) writeOneFile(ctx context.Context, w *world, operand string, built []byte) error {
	if len(built) == 0 {
		return mistake{what: "this program was built without the page as one file",
			hint: "a released one has it, and \".ci/release DIR\" makes both"}
	}
	one, err := newPage(ctx, w, operand)
	if err != nil {
		return err
	}
	defer one.storage.keeping.end()
	text := built
	if s := one.source; !s.builtIn() {
		if text, err = page.OnBrief(built, filepath.Base(s.name), s.text); err != nil {
			return err
		}
	}
	if err := createText(p.oneFile.text, "--one-file FILE", text); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w.out, "wrote %s: open it in a browser, with or without a network\n",
		screen.Visible(p.oneFile.text))
	return err
}
