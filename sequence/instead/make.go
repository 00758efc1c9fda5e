package instead

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
)

// Question is which yarn is to be replaced by what.
type Question struct {
	Yarn    string // its name in the brief
	Count   string // how thick the other is, as a brief's count has it; "" where Like is given
	Like    string // the name of another yarn of the brief that takes its place
	Package string // of the other, as a brief has it; "" where it is not known
	Price   string // of its package; "" where it is not known
}

// Source is a brief's text and how a changed text is read.
type Source struct {
	Name string
	Text []byte
	Read func(text []byte) (*brief.Brief, error)
}

// Make works out the plan with another yarn. The error is of type [brief.Problems] where
// the changed brief can't be read or planned.
func Make(
	ctx context.Context, s Source, b *brief.Brief, p *plan.Plan, q Question,
) (*Answer, error) {
	at := slices.IndexFunc(b.Yarns, func(y brief.Yarn) bool { return y.Name == q.Yarn })
	if at < 0 {
		return nil, fmt.Errorf("the brief has no yarn %q", q.Yarn)
	}
	changes, err := described(b, q)
	if err != nil {
		return nil, err
	}
	changes = append(changes, unknownStock(b, at)...)
	other, _, err := planned(ctx, s, changes)
	if err != nil {
		return nil, err
	}
	changes = append(changes, densities(b, p, other)...)
	after, made, err := planned(ctx, s, changes)
	if err != nil {
		return nil, err
	}
	a := &Answer{Schema: Schema, Yarn: q.Yarn, Changes: changes, Before: p, After: made}
	a.rows(b, after, at)
	return a, nil
}

// planned is the brief with changes, and its plan.
func planned(
	ctx context.Context, s Source, changes []brief.Change,
) (*brief.Brief, *plan.Plan, error) {
	text, err := brief.Edit(s.Name, s.Text, changes)
	if err != nil {
		return nil, nil, err
	}
	b, err := s.Read(text)
	if err != nil {
		return nil, nil, err
	}
	p, err := plan.Make(ctx, b)
	return b, p, err
}

// described are the changes that describe the other yarn under the name of the one.
func described(b *brief.Brief, q Question) ([]brief.Change, error) {
	if strings.ContainsAny(q.Yarn, ".[]") {
		return nil, fmt.Errorf("the name %q of a yarn can't be written here: "+
			"use letters, digits and hyphens", q.Yarn)
	}
	table := "yarn." + q.Yarn
	set := func(key, value string) brief.Change {
		if value == "" {
			return brief.Change{Key: table + "." + key}
		}
		return brief.Text(table+"."+key, value)
	}
	if q.Like == "" {
		return []brief.Change{{Key: table + ".tex"}, {Key: table + ".run"}, {Key: table + ".wraps"},
			set("count", q.Count), set("package", q.Package), set("price", q.Price)}, nil
	}
	at := slices.IndexFunc(b.Yarns, func(y brief.Yarn) bool { return y.Name == q.Like })
	if at < 0 || q.Like == q.Yarn {
		return nil, fmt.Errorf("the brief has no other yarn %q", q.Like)
	}
	other := b.Yarns[at]
	changes := thickness(table, other.Count)
	wraps, pack, price := "", "", ""
	if other.Wraps != nil {
		wraps = other.Wraps.String()
	}
	if other.PackageM != nil {
		pack = sequence.Decimal(other.PackageM, 3) + " m"
	}
	if other.Price != nil {
		price = other.Price.Each.FloatString(other.Price.Places)
	}
	return append(changes, set("wraps", wraps), set("package", pack), set("price", price)), nil
}

// thickness are the changes that say how thick a yarn is, in a brief's own words.
func thickness(table, words string) []brief.Change {
	keys := map[string]string{"count": "", "tex": "", "run": ""}
	switch tex, isTex := strings.CutPrefix(words, "tex "); {
	case isTex:
		keys["tex"] = tex
	case strings.Contains(words, "/kg"), strings.Contains(words, "/lb"):
		keys["run"] = tomltext.Quote(words)
	default:
		keys["count"] = tomltext.Quote(words)
	}
	var changes []brief.Change
	for _, key := range []string{"count", "tex", "run"} {
		changes = append(changes, brief.Change{Key: table + "." + key, Value: keys[key]})
	}
	return changes
}

// unknownStock takes away what is on hand of the colours of a yarn: that is the yarn as
// it was. Those of a shelf file stay as they are there.
func unknownStock(b *brief.Brief, yarn int) (changes []brief.Change) {
	for i, c := range b.Colours {
		if c.Yarn == yarn && !c.Shelf && c.OnHandM != nil {
			changes = append(changes, brief.Change{Key: fmt.Sprintf("colour[%d].on_hand", i)})
		}
	}
	return changes
}

// densities are the sett and the picks at which the yarns lie as close as before.
func densities(b *brief.Brief, p *plan.Plan, other *brief.Brief) (changes []brief.Change) {
	was, is := closenessOf(b, p), closenessOf(other, p)
	for _, d := range []struct {
		key     string
		per     *big.Rat
		was, is float64
		text    func(perMM float64) string
	}{
		{"cloth.sett", b.Cloth.Sett.PerMM, was.warp, is.warp, sett(b)},
		{"cloth.ground", b.Cloth.Ground.PerMM, was.body, is.body, picks(b)},
		{"cloth.hem_ground", b.Cloth.HemGround.PerMM, was.hem, is.hem, picks(b)},
	} {
		if d.was == 0 || math.Abs(d.was-d.is) <= float64(sameGrist*d.was) {
			continue
		}
		if text := d.text(exact.Float(d.per) * (d.was / d.is)); text != "" {
			changes = append(changes, brief.Text(d.key, text))
		}
	}
	if hemFollows(b) && len(changes) > 0 && changes[len(changes)-1].Key == "cloth.ground" {
		changes = append(changes, brief.Text("cloth.hem_ground", b.Cloth.HemGround.String()))
	}
	return changes
}

// sameGrist is how far apart two diameters may be to count as the same, as a part: a
// step of a density is no finer.
const sameGrist = 0.01

// hemFollows tells whether the hems may have the body's picks only because the brief does
// not say theirs.
func hemFollows(b *brief.Brief) bool {
	return b.Cloth.HemGround.PerMM.Cmp(b.Cloth.Ground.PerMM) == 0
}

// step is that of densities, threads to a millimetre, and how they are written.
func step(b *brief.Brief) (each float64, write func(n int) string) {
	if b.Units == "in" {
		return 1 / 25.4, func(n int) string { return fmt.Sprintf("%d/in", n) }
	}
	return 1.0 / 20, func(n int) string {
		return sequence.Decimal(big.NewRat(int64(n), 2), 1) + "/cm"
	}
}

// picks writes a density to the nearest step, one at least.
func picks(b *brief.Brief) func(perMM float64) string {
	each, write := step(b)
	return func(perMM float64) string { return write(max(1, int(math.Floor(perMM/each+0.5)))) }
}

// sett writes what the reed gives nearest to a density; without a reed, the nearest step.
func sett(b *brief.Brief) func(perMM float64) string {
	if b.Loom.Reed == nil {
		return picks(b)
	}
	return func(perMM float64) string {
		wanted := new(big.Rat).SetFloat64(perMM)
		if wanted == nil || wanted.Sign() <= 0 {
			return ""
		}
		return plan.Sleyed(wanted, b.Loom.Reed.PerMM, b.Units)
	}
}
