package plan

import (
	"math/big"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// Cost is what yarn costs, in the money of the brief's prices, as decimal texts with
// as many decimals as those have.
type Cost struct {
	Buy      string   `json:"buy"`      // the packages to buy, of all colours whose cost is known
	Unpriced []string `json:"unpriced"` // colours that are to be bought and whose cost is not known
	// the yarn in set, sample and loom waste, by its length; nil where a price is not known
	Used  *string `json:"used"`
	Piece *string `json:"piece"` // that, shared among the pieces
}

// costs fills in what is to be bought costs, by colour and in all; nothing where no
// yarn of the plan has a price.
func (m *maker) costs() {
	places, priced := m.pricePlaces()
	if !priced {
		return
	}
	buy, used, known := new(big.Rat), new(big.Rat), true
	cost := &Cost{Unpriced: []string{}}
	for i, c := range m.used {
		line := &m.plan.Yarn[i]
		if each := m.costToBuy(line, m.yarnOf(c).Price); each != nil {
			buy = exact.Plus(buy, each)
		} else if line.ShortM > 0 {
			cost.Unpriced = append(cost.Unpriced, line.Colour)
		}
		worth, ok := m.worth(c)
		used, known = exact.Plus(used, worth), known && ok
	}
	cost.Buy = buy.FloatString(places)
	if known {
		cost.Used = pointer(used.FloatString(places))
		cost.Piece = pointer(exact.Over(used, exact.Whole(len(m.b.Pieces)-m.woven())).
			FloatString(places))
	}
	m.plan.Cost = cost
}

func (m *maker) yarnOf(colour int) brief.Yarn { return m.b.Yarns[m.b.Colours[colour].Yarn] }

// costToBuy notes a colour's price and what its packages cost; nil where that is not
// known.
func (m *maker) costToBuy(line *Yarn, price *brief.Price) *big.Rat {
	if price == nil {
		return nil
	}
	line.Price = pointer(price.Each.FloatString(price.Places))
	if line.Packages == nil {
		return nil
	}
	cost := exact.Times(exact.Whole(*line.Packages), price.Each)
	line.Cost = pointer(cost.FloatString(price.Places))
	return cost
}

// worth is what all the yarn of a colour costs by its length, and whether that is
// known.
func (m *maker) worth(colour int) (*big.Rat, bool) {
	y := m.yarnOf(colour)
	if y.Price == nil || y.PackageM == nil {
		return new(big.Rat), false
	}
	return exact.Times(exact.Over(m.needs[colour], y.PackageM), y.Price.Each), true
}

// pricePlaces is the most decimals of the prices of yarn that is used, and whether
// there are any.
func (m *maker) pricePlaces() (places int, priced bool) {
	for _, c := range m.used {
		if p := m.yarnOf(c).Price; p != nil {
			places, priced = max(places, p.Places), true
		}
	}
	return places, priced
}

// costNote names what is to be bought and has no price.
func (m *maker) costNote() {
	if m.plan.Cost == nil || len(m.plan.Cost.Unpriced) == 0 {
		return
	}
	m.note(Remark, "cost-unknown",
		"what %s costs is not known, and not in the sum: give its yarn a price and a package",
		strings.Join(quoted(m.plan.Cost.Unpriced), ", "))
}
