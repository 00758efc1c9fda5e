package plan

import "fmt"

// Called is what a piece, counted from 0, is called in messages: its name in
// quotes, and its number where another piece has that name too.
func (p *Plan) Called(piece int) string {
	name, same := p.Pieces[piece].Name, 0
	for _, other := range p.Pieces {
		if other.Name == name {
			same++
		}
	}
	if same > 1 {
		return fmt.Sprintf("%q (piece %d)", name, piece+1)
	}
	return fmt.Sprintf("%q", name)
}
