package plan

import (
	"errors"
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"

	"stripesong/palette"
	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// Streams of chance, so that what one purpose draws leaves the others alone.
const (
	warpStream  = 1
	pieceStream = 16 // and 4 for each piece
)

// bands follows a rule through n units. Most is the widest a block may be, 0
// for no bound. Piece is -1 for the warp.
func (m *maker) bands(rule brief.Rule, n, most, piece int) ([]brief.Run, error) {
	runs, refuse := m.follow(rule, n, most, piece)
	if refuse != nil {
		return nil, refuse()
	}
	return runs, nil
}

// follow is [maker.bands] where what is wrong is only worded when asked for: a
// rule drawn by chance is often tried in vain.
func (m *maker) follow(rule brief.Rule, n, most,
	piece int) (runs []brief.Run, refuse func() error) {
	if rule.Middle != nil {
		return m.framed(rule, n, most, piece)
	}
	stream := uint64(warpStream)
	if piece >= 0 {
		stream = pieceStream + 4*uint64(piece)
	}
	seed := m.b.Seed
	if rule.Seed != nil {
		seed, stream = *rule.Seed, 0
	}
	base, mirrored, err := rule.Rhythm.Base(sequence.Chance(seed, stream))
	if err != nil {
		return nil, func() error {
			return m.b.Wrong(piece, err.Error(), "change the rhythm", "rhythm")
		}
	}
	if base, err = m.inShares(rule.Blocks, base, mirrored); err != nil {
		return nil, func() error { return m.misfit(err, piece, "blocks", mirrored) }
	}
	stripeMost := most
	if rule.Blocks.Apart {
		stripeMost = 0
	}
	stripes, err := share(base, n, mirrored, stripeMost)
	if err != nil {
		return nil, func() error { return m.misfit(err, piece, "rhythm", mirrored) }
	}
	colours, err := m.order(rule, len(base), stripes, mirrored, sequence.Chance(seed, stream+1))
	if err != nil {
		return nil, func() error {
			return m.b.Wrong(piece, err.Error(), "change the order or its colours", "order",
				"colours")
		}
	}
	if !rule.Blocks.Apart {
		bands := sequence.Stripes(stripes, colours, len(m.s.Blocks), mirrored)
		return m.from(rule.Blocks.First, coloured(bands, rule)), nil
	}
	blocks, letters, err := layBlocks(rule.Blocks, stripes, n, mirrored, most)
	if err != nil {
		return nil, func() error { return m.misfit(err, piece, "blocks", rule.Blocks.Mirror) }
	}
	return coloured(sequence.Overlay(stripes, colours, blocks, letters), rule), nil
}

// coloured are the runs of bands in the colours of a rule.
func coloured(bands []sequence.Band, rule brief.Rule) []brief.Run {
	made := make([]brief.Run, len(bands))
	for i, b := range bands {
		made[i] = brief.Run{Block: b.Block, Units: b.Units, Colour: rule.Colours[b.Colour]}
	}
	return made
}

// from moves blocks on, so that the first stripe has block first.
func (m *maker) from(first int, runs []brief.Run) []brief.Run {
	for i := range runs {
		runs[i].Block = (runs[i].Block + first) % len(m.s.Blocks)
	}
	return runs
}

func share(weights []int64, n int, mirrored bool, most int) ([]int, error) {
	limits := sequence.Limits{}
	if most > 0 {
		limits.Most = slices.Repeat([]int{most}, 2*len(weights))
	}
	if mirrored {
		return sequence.ShareMirrored(weights, n, limits)
	}
	return sequence.Share(weights, n, limits)
}

// inShares scales the weights of stripes, of which blocks change with every one, so that
// each block takes the share that is asked for.
func (m *maker) inShares(b brief.Blocks, base []int64, mirrored bool) ([]int64, error) {
	if b.Shares == nil || b.Apart {
		return base, nil
	}
	groups := make([]int, len(base))
	for i := range groups {
		groups[i] = (i + b.First) % len(m.s.Blocks)
	}
	return sequence.InShares(base, groups, b.Shares, mirrored)
}

// layBlocks shares units among blocks that are laid apart from the stripes, or lets them
// begin and end where stripes do.
func layBlocks(b brief.Blocks, stripes []int, n int, mirrored bool,
	most int) (units, letters []int, err error) {
	if !b.OnEdges {
		return shareBlocks(b, n, mirrored, most)
	}
	letters, weights := b.Letters, b.Weights
	if b.Mirror {
		letters, weights = sequence.Mirror(letters), sequence.Mirror(weights)
	}
	letters, weights = joined(letters, weights)
	if units, err = sequence.OnEdges(stripes, weights); err != nil {
		return nil, letters, err
	}
	if widest := slices.Max(units); most > 0 && widest > most {
		return nil, letters, &sequence.TooWideError{Units: widest, Room: most}
	}
	return units, letters, nil
}

// shareBlocks shares units among blocks that are laid apart from the stripes.
// Where they or the rhythm are mirrored, blocks that read the same from both
// ends stay a mirror image in whole units too. Where blocks have a maximum,
// neighbours of one letter are one block.
func shareBlocks(b brief.Blocks, n int, mirrored bool, most int) (units, letters []int, err error) {
	letters, weights := b.Letters, b.Weights
	if b.Mirror {
		letters, weights = sequence.Mirror(letters), sequence.Mirror(weights)
	}
	if most > 0 {
		letters, weights = joined(letters, weights)
	}
	if (b.Mirror || mirrored) && len(letters)%2 == 1 && palindrome(letters, weights) {
		weights = weights[:len(weights)/2+1]
		units, err = share(weights, n, true, most)
		return units, letters, err
	}
	units, err = share(weights, n, false, most)
	return units, letters, err
}

// joined makes one block of neighbours of one letter.
func joined(letters []int, weights []int64) (one []int, sums []int64) {
	for i, letter := range letters {
		if last := len(one) - 1; last >= 0 && one[last] == letter {
			sums[last] += weights[i]
			continue
		}
		one, sums = append(one, letter), append(sums, weights[i])
	}
	return one, sums
}

func palindrome(letters []int, weights []int64) bool {
	for i, j := 0, len(letters)-1; i < j; i, j = i+1, j-1 {
		if letters[i] != letters[j] || weights[i] != weights[j] {
			return false
		}
	}
	return true
}

// order lays colours on the stripes; of a mirrored rhythm on one half, each
// stripe counting for itself and its twin.
func (m *maker) order(rule brief.Rule, half int, stripes []int, mirrored bool,
	chance *rand.Rand) ([]int, error) {
	widths := make([]int64, half)
	for i := range widths {
		widths[i] = int64(stripes[i])
		if mirrored && i < half-1 {
			widths[i] *= 2
		}
	}
	var light, hue []int
	if rule.Order == "graded" || rule.Order == "hue" {
		light, hue = m.ranks(rule.Colours)
	}
	o := sequence.Order{Kind: rule.Order, Count: len(rule.Colours), Light: light, Hue: hue,
		Shares: rule.Shares}
	colours, err := o.Assign(widths, chance)
	if mirrored {
		colours = sequence.Mirror(colours)
	}
	return colours, err
}

// ranks orders colours from the lightest to the darkest, and round the colour
// circle.
func (m *maker) ranks(colours []int) (light, hue []int) {
	labs, rgbs := make([]palette.Lab, len(colours)), make([]palette.RGB, len(colours))
	for i, c := range colours {
		rgbs[i] = m.b.Colours[c].RGB
		labs[i] = rgbs[i].Lab()
	}
	return palette.LightestFirst(labs), palette.RoundTheCircle(rgbs)
}

// misfit says where a rhythm does not fit and what would.
func (m *maker) misfit(err error, piece int, key string, mirrored bool) error {
	var many *sequence.TooManyError
	var wide *sequence.TooWideError
	var gone *sequence.VanishError
	var absent *sequence.AbsentError
	hint := "use smaller numbers"
	switch {
	case errors.As(err, &gone):
		err = fmt.Errorf("block %d of those laid on stripe edges would vanish: no stripe is near "+
			"enough to it", gone.Block+1)
		hint = "use more stripes or fewer blocks, or leave out edges, which then cut " +
			"through stripes"
	case errors.As(err, &absent):
		err = fmt.Errorf("block %s is to have a share, and the rhythm has too few stripes "+
			"to lay it", m.letter(absent.Group))
		hint = "use more stripes, or leave the shares out"
	case errors.As(err, &many):
		if hint = fmt.Sprintf("use at most %d stripes, or a larger cloth",
			many.Fit); many.Fit == 0 {
			hint = "use a larger cloth: this one is smaller than a single unit"
		}
		if mirrored && many.Fit > 0 {
			hint = fmt.Sprintf("use at most %d stripes before they are mirrored, or a larger cloth",
				(many.Fit+1)/2)
		}
	case errors.As(err, &wide):
		hint = fmt.Sprintf("a block of this structure floats over its whole width, and may not "+
			"pass %s: use more stripes",
			m.fine(refusedFloatMM))
	}
	size := []string{"set.width", "set.in_reed"}
	if piece >= 0 {
		size = []string{"set.length", "set.woven"}
	}
	return m.b.Wrong(piece, err.Error(), hint, append([]string{key}, size...)...)
}

// widest is the most units a stripe of one block may have before its weft
// floats are refused; 0 for no bound.
func (m *maker) widest() int {
	c := m.b.Cloth
	endMM := exact.Times(exact.Over(exact.Whole(1), c.Sett.PerMM), m.widthLeft())
	ends := exact.Floor(exact.Over(big.NewRat(refusedFloatMM, 1), endMM))
	most := 0
	for _, block := range m.s.Blocks {
		if n, bounded := m.s.MostUnits(block.Letter, ends); bounded && (most == 0 || n < most) {
			most = max(n, 1)
		}
	}
	return most
}

// widthLeft is the share of the reed width that is left when finished.
func (m *maker) widthLeft() *big.Rat {
	return exact.Times(exact.Remains(m.b.Cloth.DrawIn.Part),
		exact.Remains(m.b.Cloth.ShrinkWidth.Part))
}
