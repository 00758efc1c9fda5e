package sequence

import (
	"fmt"
	"math/big"
	"math/rand/v2"

	"stripesong/sequence/exact"
)

// The steps of a graded rhythm: an arithmetic or a geometric progression.
const (
	equal        = "equal"
	proportional = "proportional"
)

var steps = []string{equal, proportional}

// Graded is a progression from the narrowest stripe to one Ratio times as wide.
type Graded struct {
	Stripes   int
	Ratio     *big.Rat
	Steps     string // "equal" or "proportional"
	Direction string // "rising", "falling" or "out-and-back"
}

func (g *Graded) Spec() Spec {
	return Spec{Name: "graded", Direction: g.Direction,
		Words: "{stripes} graded stripes, widest {ratio} times the narrowest",
		Parameters: []Parameter{
			stripes("9", &g.Stripes),
			{Key: "ratio", Label: "Widest to narrowest", Start: "5", Value: &g.Ratio,
				Usage: "widest stripe to narrowest, as in 4"},
			{Key: "steps", Label: "Steps", Start: proportional, Words: steps, Value: &g.Steps},
			direction(rising, &g.Direction),
		}}
}

func (g *Graded) Weights(*rand.Rand) ([]int64, error) {
	one := big.NewRat(1, 1)
	if g.Ratio == nil || g.Ratio.Cmp(one) < 0 || g.Ratio.Cmp(big.NewRat(MaxRatio, 1)) > 0 {
		return nil, fmt.Errorf("ratio must be from 1 to %d, the widest stripe to the narrowest",
			MaxRatio)
	}
	switch {
	case g.Stripes == 1:
		return []int64{1}, nil
	case g.Steps == equal:
		return g.equalSteps()
	}
	return g.proportionalSteps(), nil
}

func (g *Graded) draw(most int, chance *rand.Rand) {
	g.Stripes = drawn(3, min(13, most), chance)
	g.Ratio = big.NewRat(int64(drawn(2, 9, chance)), 1)
	g.Steps = steps[chance.IntN(len(steps))]
	g.Direction = directions[chance.IntN(len(directions))]
}

func (g *Graded) equalSteps() ([]int64, error) {
	one := big.NewRat(1, 1)
	step := exact.Minus(g.Ratio, one)
	step.Quo(step, big.NewRat(int64(g.Stripes-1), 1))
	weights := make([]*big.Rat, g.Stripes)
	for i := range weights {
		weights[i] = exact.Times(step, exact.Whole(i))
		weights[i].Add(weights[i], one)
	}
	return Whole(weights)
}

// fine is how many binary places a proportional step is worked out to, and
// guard how many more are carried on the way.
const (
	fine  = 28
	guard = 100
)

// proportionalSteps multiplies on by the (stripes-1)-th root of the ratio. The
// root is taken in whole numbers, so that no floating-point power has a say;
// weights come in units of 2^-28 of the narrowest, rounded half up.
func (g *Graded) proportionalSteps() []int64 {
	step := fixedRoot(g.Ratio, g.Stripes-1)
	at := new(big.Int).Lsh(big.NewInt(1), fine+guard)
	half := new(big.Int).Lsh(big.NewInt(1), guard-1)
	weights := make([]int64, g.Stripes)
	for i := range weights {
		rounded := new(big.Int).Add(at, half)
		weights[i] = rounded.Rsh(rounded, guard).Int64()
		at = fixedTimes(at, step)
	}
	return weights
}

// fixedRoot is the n-th root of ratio >= 1 in units of 2^-(fine+guard): the greatest
// whose [fixedPower] is no more. Its first bits are found one by one, and the others
// by Newton's method, to within a few units.
func fixedRoot(ratio *big.Rat, n int) *big.Int {
	whole := new(big.Int).Quo(new(big.Int).Lsh(ratio.Num(), fine+guard), ratio.Denom())
	root := new(big.Int)
	least := fine + guard - firstBits
	for bit := whole.BitLen() - 1; bit >= least; bit-- {
		if more := new(big.Int).SetBit(root, bit, 1); fixedPower(more, n).Cmp(whole) <= 0 {
			root = more
		}
	}
	// After its first step Newton's method comes down to the root.
	for next := newton(root, whole, n); ; {
		root, next = next, newton(next, whole, n)
		if next.Cmp(root) >= 0 {
			break
		}
	}
	one := big.NewInt(1)
	for fixedPower(root, n).Cmp(whole) > 0 {
		root.Sub(root, one)
	}
	for more := new(big.Int).Add(root, one); fixedPower(more, n).Cmp(whole) <= 0; {
		root.Set(more)
		more.Add(more, one)
	}
	return root
}

// firstBits is how many binary places of a root are found one by one.
const firstBits = 12

// newton is the next step from root to the n-th root of whole.
func newton(root, whole *big.Int, n int) *big.Int {
	next := new(big.Int).Lsh(whole, fine+guard)
	next.Quo(next, fixedPower(root, n-1))
	next.Add(next, new(big.Int).Mul(root, big.NewInt(int64(n-1))))
	return next.Quo(next, big.NewInt(int64(n)))
}

func fixedPower(x *big.Int, n int) *big.Int {
	power := new(big.Int).Lsh(big.NewInt(1), fine+guard)
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			power = fixedTimes(power, x)
		}
		x = fixedTimes(x, x)
	}
	return power
}

func fixedTimes(a, b *big.Int) *big.Int {
	product := new(big.Int).Mul(a, b)
	return product.Rsh(product, fine+guard)
}
