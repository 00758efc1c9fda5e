package engine

import (
	"encoding/json"
	"math/rand/v2"

	"stripesong/palette"
)

// A photo comes as the browser has made it smaller: red, green and blue of each point.
type photo struct {
	Pixels []byte `json:"pixels"`
}

// fromPhoto is a colour of a photo, and the nearest there is on the shelf.
type fromPhoto struct {
	Hex   string  `json:"hex"`
	Share float64 `json:"share"`
	Name  string  `json:"name"` // that no colour has
	Near  string  `json:"near"`
	Apart float64 `json:"apart"` // dE00
}

// mostFromPhoto is how many colours a photo is brought down to.
const mostFromPhoto = 5

// photo answers with the colours that a photo comes down to.
func (s *Engine) photo(a Ask) Answer {
	var q photo
	if err := json.Unmarshal(a.Body, &q); err != nil || len(q.Pixels) < 3 {
		return refused(badRequest, "the photo can't be read")
	}
	s.mu.Lock()
	shelf := s.bench.View().Colours
	s.mu.Unlock()
	var samples []palette.Sample
	for i := 0; i+2 < len(q.Pixels); i += 3 {
		rgb := palette.RGB{R: q.Pixels[i], G: q.Pixels[i+1], B: q.Pixels[i+2]}
		samples = append(samples, palette.Sample{Colour: rgb, Count: 1})
	}
	clusters := palette.Clusters(samples, mostFromPhoto, rand.New(rand.NewPCG(1, 1)))
	labs, taken := make([]palette.Lab, len(clusters)), make([]string, len(shelf))
	for i, c := range clusters {
		labs[i] = c.Colour.Lab()
	}
	for i, c := range shelf {
		taken[i] = c.Name
	}
	all, names := make([]fromPhoto, len(clusters)), palette.Names(labs, taken)
	for i, c := range clusters {
		all[i] = fromPhoto{Hex: c.Colour.Hex(), Share: c.Share, Name: names[i]}
		for k, own := range shelf {
			rgb := own.RGB
			if apart := palette.DeltaE00(labs[i], rgb.Lab()); k == 0 || apart < all[i].Apart {
				all[i].Near, all[i].Apart = own.Name, apart
			}
		}
	}
	return written(ok, map[string]any{"colours": all})
}
