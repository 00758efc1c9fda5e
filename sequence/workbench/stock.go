package workbench

import (
	"fmt"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// StockState is whether the stock of a colour is enough.
type StockState string

// Low is enough without what is to be spared; Free is needed by nothing.
const (
	Free    StockState = "free"
	Unknown StockState = "unknown"
	Enough  StockState = "enough"
	Low     StockState = "low"
	Short   StockState = "short"
)

// Stock is a colour of the shelf and how far it goes.
type Stock struct {
	Name  string      `json:"name"`
	RGB   palette.RGB `json:"hex"`
	Yarn  string      `json:"yarn"`
	Stock string      `json:"stock"` // as the brief has it; "" for unknown
	Shelf bool        `json:"shelf"` // from the shelf file
	InUse bool        `json:"in_use"`
	// share of the stock that is used up; above 1 it is not enough; 0 for unknown
	Used  float64    `json:"used"`
	State StockState `json:"state"`
	Says  string     `json:"says"`
	Needs string     `json:"needs"` // how much, and what of that is the sample; "" for none
}

func (b *Bench) colours() []Stock {
	need := map[string]plan.Yarn{}
	for _, y := range b.plan.Yarn {
		need[y.Colour] = y
	}
	all := make([]Stock, len(b.brief.Colours))
	for i, c := range b.brief.Colours {
		all[i] = Stock{Name: c.Name, RGB: c.RGB, Yarn: b.brief.Yarns[c.Yarn].Name, Shelf: c.Shelf,
			Stock: b.written(fmt.Sprintf("colour[%d].on_hand", i))}
		if c.Shelf && c.OnHandM != nil {
			all[i].Stock = c.OnHand
		}
		all[i].reckon(c, need[c.Name], b.plan)
	}
	return all
}

// reckon says how far the stock of a colour goes.
func (c *Stock) reckon(from brief.Colour, y plan.Yarn, p *plan.Plan) {
	needed := y.NeededM()
	c.InUse = needed > 0
	onHand := 0.0
	if from.OnHandM != nil {
		onHand = exact.Float(from.OnHandM)
	}
	length := func(m float64) string { return measure.FormatYarn(m, p.Units) }
	if c.InUse {
		c.Needs = "needs " + length(needed)
	}
	if y.SampleM > 0 {
		c.Needs += " (sample " + length(y.SampleM) + ")"
	}
	switch {
	case from.OnHandM == nil && !c.InUse:
		c.State, c.Says = Free, "not used"
	case from.OnHandM == nil:
		c.State, c.Says = Unknown, "stock not known"
	case !c.InUse:
		c.State, c.Says = Free, length(onHand)+" left, not used"
	case needed > onHand:
		c.State, c.Says = Short, length(needed-onHand)+" short"
	case y.ShortM > 0:
		c.State, c.Says = Low, length(onHand-needed)+" left, less than the spare you asked for"
	default:
		c.State, c.Says = Enough, length(onHand-needed)+" left"
	}
	if c.InUse && onHand > 0 {
		c.Used = needed / onHand
	} else if c.InUse && from.OnHandM != nil {
		c.Used = 2
	}
}
