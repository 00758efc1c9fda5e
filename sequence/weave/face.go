package weave

// Face is one pick seen from the face: for each end, left to right, whether
// the weft lies on top.
func Face(threading []int, shed Shed) []bool {
	row := make([]bool, len(threading))
	for i, shaft := range threading {
		row[i] = shed.Covers(shaft)
	}
	return row
}

// FaceRows is the whole drawdown with each different row made once: pick i
// shows rows[of[i]]. Rows stand in the order in which they are first woven.
func FaceRows(threading []int, picks []Woven) (rows [][]bool, of []int) {
	number := map[Shed]int{}
	of = make([]int, len(picks))
	for i, p := range picks {
		n, ok := number[p.Shed]
		if !ok {
			n = len(rows)
			number[p.Shed] = n
			rows = append(rows, Face(threading, p.Shed))
		}
		of[i] = n
	}
	return rows, of
}

// Phi is the share num/den of a block's ends that the pattern weft covers on
// the face, over all pattern picks of a weft unit: with own, of the block that
// is woven; without, of another block. It is the mean of all blocks, or of all
// pairs, in lowest terms; [Structure.PhiOf] tells one from another.
func (s *Structure) Phi(own bool) (num, den int) {
	over, of := 0, 0
	for i := range s.Blocks {
		for j := range s.Blocks {
			if (i == j) == own {
				n, d := covered(s, &s.Blocks[i], &s.Blocks[j])
				over, of = over+n, of+d
			}
		}
	}
	return lowest(over, of)
}

// PhiOf is the share num/den, in lowest terms, of the ends of the block lies
// that the pattern weft covers on the face while the block woven is woven. It
// is 0/1 where either is none of the structure's, as for plain ground.
func (s *Structure) PhiOf(woven, lies string) (num, den int) {
	w, ok1 := s.Block(woven)
	l, ok2 := s.Block(lies)
	if !ok1 || !ok2 {
		return 0, 1
	}
	return lowest(covered(s, w, l))
}

// covered counts crossings of pattern picks and ends, and those with the weft
// on top.
func covered(s *Structure, woven, lies *Block) (over, of int) {
	for _, p := range s.Order {
		if !p.Pattern {
			continue
		}
		for _, shaft := range lies.Unit {
			of++
			if woven.Sheds[p.Index].Covers(shaft) {
				over++
			}
		}
	}
	return over, of
}

func lowest(num, den int) (int, int) {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return num / a, den / a
}
