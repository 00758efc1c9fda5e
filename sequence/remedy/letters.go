package remedy

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// exchanged puts blocks in the place of others wherever the brief writes their letters, and
// says which; what follows a rule alone changes by itself. Kept are the blocks that stay,
// in order, called is what each is called then.
func (f *finder) exchanged(kept []int, called []string) (what string, all []brief.Change) {
	doc, err := tomltext.Parse(f.source.Name, f.source.Text)
	if err != nil {
		return "", nil
	}
	letters := f.b.Structure.Letters()
	e := &letterExchange{f: f, doc: doc, to: map[string]string{}, stays: called,
		met: map[string]bool{}}
	stand := f.standIns(kept)
	for i, k := range stand {
		e.to[letters[i]] = called[slices.Index(kept, k)]
	}
	e.table("warp", f.b.Warp.Rule, f.b.Warp.Runs)
	e.table("weft", f.b.Weft.Rule, f.b.Weft.Runs)
	for i, piece := range f.b.Pieces {
		e.table(fmt.Sprintf("piece[%d]", i), piece.Weft.Rule, piece.Weft.Runs)
	}
	var words []string
	for i, k := range stand {
		if e.met[letters[i]] && k != i {
			words = append(words, letters[i]+" as "+letters[k])
		}
	}
	if len(words) > 0 {
		words = []string{"block " + strings.Join(words, ", ")}
	}
	for i, k := range kept {
		if letters[k] != called[i] {
			words = append(words, letters[k]+" then called "+called[i])
		}
	}
	return strings.Join(words, ", "), e.changes
}

// letterExchange goes through the tables that speak of blocks.
type letterExchange struct {
	f       *finder
	doc     *tomltext.Document
	to      map[string]string // for every letter of the brief's structure
	stays   []string          // the letters there are then
	met     map[string]bool   // letters that were written
	changes []brief.Change
}

// letter is what stands for a letter.
func (e *letterExchange) letter(was string) string {
	e.met[was] = true
	if now, known := e.to[was]; known {
		return now
	}
	return was
}

// text sets a text, if it is another than was.
func (e *letterExchange) text(key, was, now string) {
	if now != was {
		e.changes = append(e.changes, brief.Text(key, now))
	}
}

func (e *letterExchange) table(key string, rule brief.Rule, runs []brief.Run) {
	if n := e.doc.Root.Find(key + ".runs"); n != nil {
		e.runs(key+".runs", runs)
	}
	if n := e.doc.Root.Find(key + ".first"); n != nil {
		e.text(key+".first", n.Text, e.letter(n.Text))
	}
	if n := e.doc.Root.Find(key + "." + sequence.Middle.Key); n != nil {
		e.text(key+"."+sequence.Middle.Key, n.Text, brief.MiddleInBlocks(n.Text, e.letter))
	}
	if n := e.doc.Root.Find(key + ".blocks.letters"); n != nil {
		var now strings.Builder
		for _, c := range n.Text {
			now.WriteString(e.letter(string(c)))
		}
		e.text(key+".blocks.letters", n.Text, now.String())
	}
	if e.doc.Root.Find(key+".blocks.shares") != nil && rule.Blocks.Laid != nil {
		e.shares(key+".blocks.shares", rule.Blocks.Laid.Shares)
	}
}

func (e *letterExchange) runs(key string, runs []brief.Run) {
	texts, changed := e.f.b.RunTexts(runs), false
	for i, r := range runs {
		if r.Block < 0 {
			continue
		}
		was := e.f.b.Structure.Blocks[r.Block].Letter
		if now := e.letter(was); now != was {
			texts[i] = brief.RunText(now, r.Units, e.f.b.Colours[r.Colour].Name)
			changed = true
		}
	}
	if changed {
		e.changes = append(e.changes, brief.Change{Key: key, Value: brief.RunList(texts)})
	}
}

// shares gives what a block had to the one that stands in for it.
func (e *letterExchange) shares(key string, was []*big.Rat) {
	letters := e.f.b.Structure.Letters()
	if slices.Equal(letters, e.stays) || len(was) != len(letters) {
		return
	}
	now := make([]string, len(e.stays))
	for i, letter := range e.stays {
		sum := new(big.Rat)
		for k, of := range letters {
			if e.to[of] == letter {
				sum.Add(sum, was[k])
			}
		}
		now[i] = sequence.Decimal(sum, 20)
	}
	e.changes = append(e.changes,
		brief.Change{Key: key, Value: "[" + strings.Join(now, ", ") + "]"})
}
