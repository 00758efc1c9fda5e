package sequence

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Limits bound the units of a single stripe.
type Limits struct {
	Least int   // every stripe's minimum; 0 is read as 1
	Most  []int // each stripe's maximum; nil or 0 for none
}

func (l Limits) least() int { return max(l.Least, 1) }

func (l Limits) most(i int) int {
	if i < len(l.Most) && l.Most[i] > 0 {
		return l.Most[i]
	}
	return math.MaxInt
}

// TooManyError says that a rhythm has more stripes than there are units.
type TooManyError struct{ Stripes, Units, Fit int }

func (e *TooManyError) Error() string {
	return fmt.Sprintf("%d stripes do not fit in %d units: at most %d would",
		e.Stripes, e.Units, e.Fit)
}

// TooWideError says that stripes at their maxima can't fill the units.
type TooWideError struct{ Units, Room int }

func (e *TooWideError) Error() string {
	return fmt.Sprintf("%d units do not fit: stripes as wide as they may be hold %d",
		e.Units, e.Room)
}

// Share splits n units among stripes in proportion to weights, each getting at
// least the minimum and at most its maximum. The shares sum to n, and no other
// split within the limits is closer to the exact proportions in the squared
// sense; of equal ones the earlier stripe gets the unit.
//
// Where no limit binds this is the largest-remainder method (Hamilton 1792).
// Weights are whole and positive, and n times their sum must stay below 2^62.
func Share(weights []int64, n int, limits Limits) ([]int, error) {
	sum, err := total(weights, n)
	if err != nil {
		return nil, err
	}
	if err := fits(len(weights), n, limits); err != nil {
		return nil, err
	}
	shares := floors(weights, sum, n, limits)
	left := n
	for _, s := range shares {
		left -= s
	}
	gains := newGains(len(weights), func(i int) (int64, bool) {
		return int64(n)*weights[i] - int64(shares[i])*sum, shares[i] < limits.most(i)
	})
	for ; left > 0; left-- {
		i := gains.best()
		shares[i]++
		gains.renew()
	}
	return shares, nil
}

// floors is where the giving of units starts: the whole parts of the exact
// shares where no limit binds, else everyone's minimum. Both lead to the same
// split; the first has less left to give.
func floors(weights []int64, sum int64, n int, limits Limits) []int {
	shares := make([]int, len(weights))
	for i, w := range weights {
		shares[i] = int(int64(n) * w / sum)
		if shares[i] < limits.least() || shares[i] > limits.most(i) {
			return slices.Repeat([]int{limits.least()}, len(weights))
		}
	}
	return shares
}

// ShareMirrored splits n units among the 2k-1 stripes of a rhythm that turns
// on its centre. Weights holds the first k of them, the centre last; the result
// holds all. Among the splits that are mirror images none is closer to the
// exact proportions; of equal ones the narrower centre is taken, then the
// earlier stripe. The centre takes the parity of n.
func ShareMirrored(weights []int64, n int, limits Limits) ([]int, error) {
	k := len(weights)
	all := Mirror(weights)
	sum, err := total(all, n)
	if err != nil {
		return nil, err
	}
	limits.Most = mirrorLimits(limits.Most, len(all))
	half, err := mirrorStart(k, n, limits)
	if err != nil {
		return nil, err
	}
	left := n - half[k-1]
	for _, s := range half[:k-1] {
		left -= 2 * s
	}
	gains := newGains(k, func(i int) (int64, bool) {
		return mirrorGain(weights, half, i, n, sum, limits)
	})
	for ; left > 0; left -= 2 {
		i := gains.best()
		if i < 0 {
			return nil, &TooWideError{Units: n, Room: n - left}
		}
		half[i]++
		if i == k-1 {
			half[i]++
		}
		gains.renew()
	}
	return Mirror(half), nil
}

// mirrorStart gives every stripe its minimum and the centre the parity of n.
func mirrorStart(k, n int, limits Limits) ([]int, error) {
	least := limits.least()
	centre := least + (n-least)&1
	if need := 2*(k-1)*least + centre; need > n {
		fit := 0
		if n >= least {
			fit = (n-centre)/(2*least)*2 + 1
		}
		return nil, &TooManyError{Stripes: 2*k - 1, Units: n, Fit: fit}
	}
	if err := fits(2*k-1, n, limits); err != nil {
		return nil, err
	}
	if most := limits.most(k - 1); centre > most {
		return nil, &TooWideError{Units: n, Room: n - centre + most}
	}
	half := slices.Repeat([]int{least}, k)
	half[k-1] = centre
	return half, nil
}

// mirrorGain is how much closer the next two units bring the split at a stripe,
// one for it and one for its twin, or two for the centre, and whether there is
// room for them. Adding them costs 4(n_i + 1/2 - t_i) for a pair and
// 4(c + 1 - t_c) for the centre, each rising, so taking the cheapest every time
// is best.
func mirrorGain(weights []int64, half []int, i, n int, sum int64, limits Limits) (int64, bool) {
	step, need := sum, 1 // twice one half
	if i == len(weights)-1 {
		step, need = 2*sum, 2
	}
	return 2*(int64(n)*weights[i]-int64(half[i])*sum) - step, limits.most(i)-half[i] >= need
}

// mirrorLimits takes the tighter maximum of each stripe and its twin.
func mirrorLimits(most []int, n int) []int {
	if most == nil {
		return nil
	}
	l := Limits{Most: most}
	both := make([]int, n)
	for i := range both {
		if m := min(l.most(i), l.most(n-1-i)); m < math.MaxInt {
			both[i] = m
		}
	}
	return both
}

func total(weights []int64, n int) (int64, error) {
	if len(weights) == 0 {
		return 0, fmt.Errorf("a rhythm needs at least one stripe")
	}
	var sum int64
	for _, w := range weights {
		if w <= 0 {
			return 0, fmt.Errorf("a weight must be more than 0, not %d", w)
		}
		if sum += w; sum < 0 || w > 1<<60 {
			return 0, errTooFine
		}
	}
	if n > 0 && sum > (1<<60)/int64(n) {
		return 0, errTooFine
	}
	return sum, nil
}

var errTooFine = errors.New("the weights are too large or too finely divided: " +
	"use smaller numbers or fewer decimals")

func fits(stripes, n int, limits Limits) error {
	if stripes > n/limits.least() {
		return &TooManyError{Stripes: stripes, Units: n, Fit: n / limits.least()}
	}
	room := 0
	for i := range stripes {
		m := limits.most(i)
		if m == math.MaxInt {
			return nil
		}
		room += m
	}
	if room < n {
		return &TooWideError{Units: n, Room: room}
	}
	return nil
}

// Mirror turns a row on its last member, which is not repeated.
func Mirror[T any](half []T) []T {
	all := append(make([]T, 0, max(2*len(half)-1, 0)), half...)
	for i := len(half) - 2; i >= 0; i-- {
		all = append(all, half[i])
	}
	return all
}
