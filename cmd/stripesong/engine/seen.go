package engine

import (
	"encoding/binary"
	"math"
	"strconv"
	"sync"

	"stripesong/palette"
	"stripesong/sequence/workbench"
)

// seen answers with every piece as it looks from a distance, as bytes: for
// each of the sides asked for, piece by piece, the width and height as two
// 16-bit numbers, low byte first, and then four bytes a point.
func (s *Engine) seen(a Ask) Answer {
	q := a.Query
	number := func(key string, most int) int {
		n, _ := strconv.Atoi(q.Get(key))
		return max(0, min(n, most))
	}
	metres, err := strconv.ParseFloat(q.Get("m"), 64)
	if err != nil || !(metres > 0) || metres > 1000 {
		return refused(badRequest, "the distance is not one")
	}
	sides := []bool{false, true}
	switch q.Get("sides") {
	case "face":
		sides = sides[:1]
	case "back":
		sides = sides[1:]
	}
	s.mu.Lock()
	cloths := s.bench.Cloths(q.Get("aside") == "1", sides, number("eyes", len(workbench.Eyes)-1))
	s.mu.Unlock()
	pictures := pictures(cloths, metres, number("across", workbench.MostAcross))
	var body []byte
	for _, p := range pictures {
		body = binary.LittleEndian.AppendUint16(body, uint16(p.Across))
		body = binary.LittleEndian.AppendUint16(body, uint16(p.Down))
		body = append(body, p.RGBA...)
	}
	return Answer{ok, "application/octet-stream", body}
}

// mostPoints is about how many points one answer may hold; where there are
// many pieces each is drawn more coarsely, as it is on the page.
const mostPoints = 6e6

// pictures are made side by side, as each is apart from the others.
func pictures(cloths []palette.Panes, metres float64, across int) []workbench.Picture {
	across = min(across, int(math.Sqrt(mostPoints/float64(max(1, 2*len(cloths))))))
	pictures := make([]workbench.Picture, len(cloths))
	var working sync.WaitGroup
	for i, c := range cloths {
		working.Go(func() { pictures[i] = workbench.Seen(c, metres, across) })
	}
	working.Wait()
	return pictures
}
