// Package folder is what a plan comes as: the files of its folder, and what the folder
// is called. It writes nothing itself.
package folder

import (
	"fmt"
	"io"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
	"stripesong/svg"
	"stripesong/svg/packet"
)

// File is one file of a plan's folder.
type File struct {
	Name  string
	Write func(io.Writer, *plan.Plan) error
}

// Files are the files a plan comes as, in the order in which they are written.
func Files(p *plan.Plan) []File {
	all := []File{
		{"plan.json", screen.WriteJSON[*plan.Plan]},
		{"plan.svg", svg.Set},
		{"yarn.csv", Yarn},
		{"packet.html", packet.Write},
	}
	for i := range p.Pieces {
		all = append(all, ofPiece(i)...)
	}
	return all
}

// ofPiece are the files of one piece, counted from 0.
func ofPiece(i int) []File {
	name := func(what string) string { return fmt.Sprintf("piece-%02d%s", i+1, what) }
	side := func(draw drawSide, back bool) func(io.Writer, *plan.Plan) error {
		return func(w io.Writer, p *plan.Plan) error { return draw(w, p, i, back) }
	}
	return []File{
		{name(".svg"), func(w io.Writer, p *plan.Plan) error { return svg.Piece(w, p, i) }},
		{name("-face.png"), side(svg.Picture, false)},
		{name("-back.png"), side(svg.Picture, true)},
		{name("-face-threads.png"), side(svg.Crossings, false)},
		{name("-back-threads.png"), side(svg.Crossings, true)},
	}
}

// drawSide draws one side of a piece.
type drawSide func(w io.Writer, p *plan.Plan, piece int, back bool) error
