package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"

	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/plan"
	"stripesong/svg"
	"stripesong/svg/packet"
)

// A product is one file of a plan's folder.
type product struct {
	name  string
	write func(io.Writer, *plan.Plan) error
}

// products are the files a plan comes as.
func products(p *plan.Plan) []product {
	all := []product{
		{"plan.json", writeJSON[*plan.Plan]},
		{"plan.svg", svg.Set},
		{"yarn.csv", writeYarn},
		{"packet.html", packet.Write},
	}
	for i := range p.Pieces {
		all = append(all,
			product{fmt.Sprintf("piece-%02d.svg", i+1), func(w io.Writer, p *plan.Plan) error { return svg.Piece(w, p, i) }},
			product{fmt.Sprintf("piece-%02d-face.png", i+1), func(w io.Writer, p *plan.Plan) error { return svg.Picture(w, p, i, false) }},
			product{fmt.Sprintf("piece-%02d-back.png", i+1), func(w io.Writer, p *plan.Plan) error { return svg.Picture(w, p, i, true) }})
	}
	return all
}

// ourNames are the patterns of every file that a plan's folder may hold, and
// of the litter that file managers leave in folders they show.
var ourNames = []string{"plan.json", "plan.svg", "yarn.csv", "packet.html", "contrast.svg",
	"piece-[0-9][0-9].svg", "piece-[0-9][0-9]-face.png", "piece-[0-9][0-9]-back.png",
	"piece-[0-9][0-9][0-9].svg", "piece-[0-9][0-9][0-9]-face.png", "piece-[0-9][0-9][0-9]-back.png",
	".DS_Store", "Thumbs.db", "desktop.ini"}

func isOurs(name string) bool {
	return slices.ContainsFunc(ourNames, func(pattern string) bool {
		match, _ := path.Match(pattern, name)
		return match
	})
}

// roomForFile is what the largest file of a set of six takes, in bytes.
const roomForFile = 320 << 10

// writeFolder writes all files of a plan into a folder, whole or not at all.
// Last is done when they are ready and before they take their place, unless it
// is nil: if it fails, so does everything.
func writeFolder(ctx context.Context, dir string, p *plan.Plan, shown *progress, last func() error) error {
	err := whole.Folder(dir, ours, func(put whole.Put) error {
		var buffer bytes.Buffer
		buffer.Grow(roomForFile) // growing step by step takes thrice the memory
		for _, file := range products(p) {
			if err := ctx.Err(); err != nil {
				return err
			}
			shown.stage("drawing " + file.name)
			buffer.Reset()
			if err := file.write(&buffer, p); err != nil {
				return fmt.Errorf("%s: %w", file.name, err)
			}
			if err := put(file.name, buffer.Bytes()); err != nil {
				return err
			}
		}
		if err := ctx.Err(); err != nil || last == nil {
			return err
		}
		return last()
	})
	return explainFolder(dir, err)
}

func explainFolder(dir string, err error) error {
	if err == nil || interrupted(err) != err {
		return interrupted(err)
	}
	if m := (mistake{}); errors.As(err, &m) {
		return err
	}
	return mistake{what: fmt.Sprintf("can't write the folder %q: %s", dir, plainly(err)), cause: err,
		hint: "name another with --out DIR; nothing was changed"}
}

// ours tells whether a folder holds a plan of ours and nothing else, so that
// it may be replaced.
func ours(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !isOurs(e.Name()) {
			return fmt.Errorf("it is there already and holds %q, which is no part of a plan", e.Name())
		}
	}
	return isPlan(filepath.Join(dir, "plan.json"))
}

// isPlan tells whether a file is a plan of this program, which says so in its
// first lines: the rest is not read.
func isPlan(file string) error {
	f, err := os.Open(file)
	if err != nil {
		return errors.New("it is there already and is not a plan's folder")
	}
	defer f.Close()
	read := json.NewDecoder(f)
	for _, want := range []json.Token{json.Delim('{'), "schema", plan.Schema} {
		if got, err := read.Token(); err != nil || got != want {
			return errors.New("it is there already, and its plan.json is not a plan of this program")
		}
	}
	return nil
}
