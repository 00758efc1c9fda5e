package loomwork

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

// TestCountsAreThePlans: everything listed for the loom adds up to the plan.
func TestCountsAreThePlans(t *testing.T) {
	for name, p := range plans(t) {
		t.Run(name, func(t *testing.T) {
			wound, last := 0, 0
			stripes := map[int]int{}
			for _, b := range Bouts(p) {
				assert.Equal(t, last+1, b.From)
				assert.LessOrEqual(t, b.Ends(), max(p.Loom.Bout, p.Weave.UnitEnds()))
				inBout := 0
				for _, s := range b.Stripes {
					inBout += s.Ends
					stripes[s.Run] += s.Ends
				}
				assert.Equal(t, b.Ends(), inBout)
				assert.Equal(t, b.To, b.Stripes[len(b.Stripes)-1].To)
				wound, last = wound+inBout, b.To
			}
			assert.Equal(t, p.Warp.Ends, wound)
			for i, run := range p.Warp.Runs {
				assert.Equal(t, run.Ends, stripes[i])
			}
			threads := ThreadingOf(p)
			require.Len(t, threads, len(p.Warp.Runs))
			assert.Equal(t, p.Warp.Ends, threads[len(threads)-1].To)
			heddles := make([]int, p.Weave.Shafts)
			for _, run := range threads {
				require.Len(t, run.After, run.Units)
				assert.Equal(t, run.To, run.After[run.Units-1])
				for _, shaft := range run.Shafts {
					heddles[shaft-1] += run.Units
				}
			}
			assert.Equal(t, p.Warp.Heddles, heddles)
			for i := range p.Pieces {
				checkPiece(t, p, i)
			}
			checkWeights(t, p)
		})
	}
}

// TestInSight: what stays in sight is a step of its own, and the fold a mark, where
// the hem meets it: 4 cm of hem and 1 of plain at 11/cm, shrunk by 10 %, are 48.9 and
// 12.2 picks, 48 and 12 in even numbers, 43.64 and 10.91 mm woven. They leave 640.4 mm
// of 660 for the body: 711.5 mm woven, 285 units of four picks and 2.5 mm.
func TestInSight(t *testing.T) {
	p := planOf(t, with(t, "# hem_show", "hem_show"))
	steps := StepsOf(p, 0)
	n := len(steps)
	at := func(s Step) string {
		return fmt.Sprintf("%s %d %d %t %t %.2f", s.Kind, s.GroundPicks, s.Picks, s.FoldBefore,
			s.FoldAfter, s.Woven)
	}
	assert.Equal(t, "hem 48 48 false false 43.64", at(steps[0]))
	assert.Equal(t, "show 12 60 true false 54.55", at(steps[1]))
	assert.Equal(t, "show 12 1212 false true 777.95", at(steps[n-3]))
	assert.Equal(t, "hem 48 1260 false false 821.59", at(steps[n-2]))
	marks := TapeOf(p, 0).Marks
	assert.Equal(t, []What{First, Fold, Edge}, []What{marks[0].What, marks[1].What, marks[2].What})
	m := len(marks)
	assert.Equal(t, []What{Edge, Fold, Last},
		[]What{marks[m-3].What, marks[m-2].What, marks[m-1].What})
	assert.InDelta(t, 48/1.1, marks[1].MM, 1e-4)
}

func checkPiece(t *testing.T, p *plan.Plan, i int) {
	t.Helper()
	piece := p.Pieces[i]
	steps := StepsOf(p, i)
	picks, units, fringes := 0, 0, 0
	var last Step
	for _, s := range steps {
		if s.Kind == Separator {
			assert.Equal(t, piece.SeparatorPick, s.GroundPicks)
			continue
		}
		if s.Kind == Fringe {
			assert.Equal(t, p.Cloth.FringeMM, s.BareMM)
			assert.Equal(t, picks, s.Picks)
			fringes++
			continue
		}
		picks += s.PatternPicks + s.GroundPicks
		units += s.Units
		assert.Equal(t, picks, s.Picks)
		assert.Greater(t, s.Woven, last.Woven)
		last = s
	}
	assert.Equal(t, p.Cloth.FringeMM > 0, fringes == 2)
	assert.Equal(t, piece.Picks, picks)
	assert.Equal(t, piece.BodyUnits, units)
	assert.Equal(t, piece.WovenMM, last.Woven, "to the last decimal")
	tape := TapeOf(p, i)
	assert.Zero(t, tape.Marks[0].MM)
	assert.Equal(t, Mark{piece.WovenMM, Last, -1}, tape.Marks[len(tape.Marks)-1])
	middles := 0
	for k, m := range tape.Marks {
		if k > 0 {
			assert.GreaterOrEqual(t, m.MM, tape.Marks[k-1].MM)
		}
		if m.What == Middle {
			middles++
			assert.Equal(t, piece.WovenMM/2, m.MM)
		}
	}
	assert.Equal(t, 1, middles)
	at := 0.0
	for k, s := range tape.Strips {
		assert.Equal(t, k+1, s.Number)
		assert.Equal(t, at, s.From)
		assert.LessOrEqual(t, s.To-s.From, stripInch+1e-9)
		at = s.To
	}
	assert.Equal(t, piece.WovenMM, at)
}

func checkWeights(t *testing.T, p *plan.Plan) {
	t.Helper()
	for _, w := range WeightsOf(p) {
		sum := w.WarpG
		for _, g := range w.Grams {
			sum += g
		}
		y := p.Yarn[w.Yarn]
		assert.InDelta(t, y.TotalG+float64(y.HemstitchM*y.Tex)/1000, sum, 0.01)
	}
}

// breaksInside counts bouts that end inside a stripe.
func breaksInside(bouts []Bout) (n int) {
	for _, b := range bouts {
		if !b.Stripes[len(b.Stripes)-1].Closes {
			n++
		}
	}
	return n
}

// TestBoutsBreakAtStripes: with bouts of at most 80 ends (common practice, no source)
// three stripes of 52 are three bouts and not two of 78, four of 36 are two of 72; of
// 20, 44 and 56 the first two go together. A stripe of 96 has to be broken, but only
// once, and never inside a unit of four.
func TestBoutsBreakAtStripes(t *testing.T) {
	warp := func(ends ...int) *plan.Plan {
		p := &plan.Plan{}
		p.Loom.Bout = 80
		for _, n := range ends {
			p.Warp.Runs = append(p.Warp.Runs, plan.WarpRun{Units: n / 4, Ends: n})
			p.Warp.Units += n / 4
			p.Warp.Ends += n
		}
		return p
	}
	sizes := func(p *plan.Plan) (n []int) {
		for _, b := range Bouts(p) {
			n = append(n, b.Ends())
		}
		return n
	}
	assert.Equal(t, []int{52, 52, 52}, sizes(warp(52, 52, 52)))
	assert.Equal(t, []int{72, 72}, sizes(warp(36, 36, 36, 36)))
	assert.Equal(t, []int{64, 56}, sizes(warp(20, 44, 56)), "20 with its neighbour")
	broken := Bouts(warp(96))
	assert.Equal(t, []int{48, 48}, []int{broken[0].Ends(), broken[1].Ends()})
	assert.Equal(t, 1, breaksInside(broken))
	assert.Empty(t, Bouts(&plan.Plan{}))
}

// TestBoutsOfAClosingEnd: it lies in the bout of the unit before it, which is no larger
// for it than a bout may be: 20 units of four and the closing end are two bouts of at
// most 80.
func TestBoutsOfAClosingEnd(t *testing.T) {
	p := &plan.Plan{}
	p.Loom.Bout = 80
	p.Warp = plan.Warp{Units: 60, Ends: 241, ClosingEnds: 1,
		Runs: []plan.WarpRun{{Units: 20, Ends: 80}, {Units: 20, Ends: 81, Closing: 1},
			{Units: 20, Ends: 80, Turned: true}}}
	bouts := Bouts(p)
	require.Len(t, bouts, 4)
	assert.Equal(t, Bout{1, 80, []Stripe{{0, 80, 80, true, true}}}, bouts[0])
	assert.Equal(t, Bout{81, 120, []Stripe{{1, 40, 120, true, false}}}, bouts[1])
	assert.Equal(t, Bout{121, 161, []Stripe{{1, 41, 161, false, true}}}, bouts[2])
	assert.Equal(t, Bout{162, 241, []Stripe{{2, 80, 241, true, true}}}, bouts[3])
}

// TestThreadingOfAClosingEnd: last in its stripe from the left, first from the right. By
// hand for the fifth stripe of nine, of 5 units, with 260 ends before it at either side.
func TestThreadingOfAClosingEnd(t *testing.T) {
	text := with(t, "# closing_end", "closing_end")
	left := ThreadingOf(planOf(t, text))
	middle := left[4]
	assert.Equal(t, []int{261, 281, 1}, []int{middle.From, middle.To, middle.Closing})
	assert.Equal(t, []int{264, 268, 272, 276, 280}, middle.After)
	assert.Equal(t, []int{6, 10, 5, 0}, middle.Heddles)
	assert.Equal(t, []int{1, 2, 3, 2}, middle.Shafts)
	assert.Equal(t, []int{4, 1, 4, 3}, left[5].Shafts)
	assert.Equal(t, 541, left[8].To)
	right := ThreadingOf(planOf(t,
		strings.Replace(text, `# thread_from = "left"`, `thread_from = "right"`, 1)))
	middle = right[4]
	assert.Equal(t, []int{261, 281, 1}, []int{middle.From, middle.To, middle.Closing})
	assert.Equal(t, []int{265, 269, 273, 277, 281}, middle.After)
	assert.Equal(t, []int{2, 3, 2, 1}, middle.Shafts)
	assert.Equal(t, []int{3, 4, 1, 4}, left[3].Shafts)
	assert.Equal(t, []int{3, 4, 1, 4}, right[3].Shafts, "turned twice")
}

// TestBoutsBeatEveryOther: on short warps no division has fewer breaks inside a
// stripe, or as few and fewer bouts (all divisions are tried).
func TestBoutsBeatEveryOther(t *testing.T) {
	for _, runs := range [][]int{{3, 1, 4}, {5, 5}, {1, 1, 1, 7, 1}, {2, 6, 2}, {9}, {4, 4, 1}} {
		const most = 4
		edge := edges(runs)
		n := len(edge) - 1
		best := [2]int{1 << 30, 1 << 30}
		for cuts := range 1 << (n - 1) {
			inside, bouts, from, fits := 0, 0, 0, true
			for to := 1; to <= n; to++ {
				if to < n && cuts>>(to-1)&1 == 0 {
					continue
				}
				fits = fits && to-from <= most
				bouts++
				if !edge[to] {
					inside++
				}
				from = to
			}
			if fits && (inside < best[0] || inside == best[0] && bouts < best[1]) {
				best = [2]int{inside, bouts}
			}
		}
		breaks := boutBreaks(runs, func(from, to int) bool { return to-from <= most })
		inside := 0
		for _, at := range breaks {
			if !edge[at] {
				inside++
			}
		}
		assert.Equal(t, best, [2]int{inside, len(breaks)}, runs)
	}
}

// TestSleyingByTheReedTable: 10 ends an inch in a reed of 6 dents is 1-2-2 and 20 an
// inch is 3-3-4 (reed charts: common practice, no source). In reeds of 8, 10 and 12
// 1-2-2 gives 5/3 of the dents, 13.33, 16.67 and 20; 2-2-3 gives 7/3, 18.67, 23.33 and
// 28; 1-1-1-2 gives 5/4, 10, 12.5 and 15.
func TestSleyingByTheReedTable(t *testing.T) {
	for _, c := range []struct {
		sett, reed string
		repeat     []int
		perInch    float64
	}{
		{"10/in", "6/in", []int{1, 2, 2}, 10}, {"20/in", "6/in", []int{3, 3, 4}, 20},
		{"13 1/3/in", "8/in", []int{1, 2, 2}, 40. / 3},
		{"50/3in", "10/in", []int{1, 2, 2}, 50. / 3}, {"20/in", "12/in", []int{1, 2, 2}, 20},
		{"56/3in", "8/in", []int{2, 2, 3}, 56. / 3}, {"70/3in", "10/in", []int{2, 2, 3}, 70. / 3},
		{"28/in", "12/in", []int{2, 2, 3}, 28},
		{"10/in", "8/in", []int{1, 1, 1, 2}, 10}, {"12.5/in", "10/in", []int{1, 1, 1, 2}, 12.5},
		{"15/in", "12/in", []int{1, 1, 1, 2}, 15},
	} {
		p := planOf(t, with(t, `sett          = "10/cm"`, fmt.Sprintf(`sett = "%s"`, c.sett),
			`reed     = "50/10cm"`, fmt.Sprintf(`reed = "%s"`, c.reed)))
		s := SleyingOf(p)
		require.NotNil(t, s)
		assert.Equal(t, c.repeat, s.Repeat, "%s in %s", c.sett, c.reed)
		assert.InDelta(t, c.perInch, s.PerCM*2.54, 1e-3)
		ends := 0
		for d := range s.Dents {
			ends += s.Repeat[d%len(s.Repeat)]
		}
		ends += s.Last - s.Repeat[(s.Dents-1)%len(s.Repeat)]
		assert.Equal(t, p.Warp.Ends, ends)
		if s.First > 0 {
			left, right := s.First-1, s.InReed-s.Final
			assert.LessOrEqual(t, left, right)
			assert.LessOrEqual(t, right-left, 1, "centred")
			assert.Equal(t, s.Dents, s.Final-s.First+1)
		}
	}
}

// TestSleyingByHand: 540 ends, two in each of 50 dents to 10 cm, are 270 dents or
// 54 cm; a reed of 100 cm has 500, so 230 stay empty, 115 at each side, and the
// floating selvedges take the next. Of 11 ends at 1-2-2 ten are in six dents and one
// in the seventh; of 12 the two that are left take two dents, where one would hold two.
func TestSleyingByHand(t *testing.T) {
	s := SleyingOf(planOf(t, with(t)))
	assert.Equal(t, &Sleying{Repeat: []int{2}, PerCM: 10, Dents: 270, Last: 2, WidthMM: 540,
		FromMiddle: 135, First: 116, Final: 385, InReed: 500, Selvedges: true}, s)
	assert.False(t, s.Irregular())
	dents, last := dentsFor(11, []int{1, 2, 2})
	assert.Equal(t, [2]int{7, 1}, [2]int{dents, last})
	dents, last = dentsFor(12, []int{1, 2, 2})
	assert.Equal(t, [2]int{8, 1}, [2]int{dents, last})
	assert.True(t, (&Sleying{Repeat: []int{1, 2, 2}, Dents: 8, Last: 1}).Irregular())
	assert.Nil(t, SleyingOf(planOf(t, with(t, `reed     = "50/10cm"`, ``))))
}

// TestAReedAsWideAsTheLoom has width times dents, exactly, in inches too; a part of
// a dent is none.
func TestAReedAsWideAsTheLoom(t *testing.T) {
	for _, c := range []struct {
		loom, reed string
		dents      int
	}{
		{"36 in", "10/in", 360}, {"36 in", "12/in", 432}, {"45 in", "8/in", 360},
		{"24 in", "15/in", 360},
		{"25.4 cm", "10/in", 100}, {"1 yd", "6/in", 216}, {"100 cm", "40/10cm", 400},
		{"99.9 cm", "40/10cm", 399},
		{"35.99 in", "10/in", 359},
	} {
		p := planOf(t, with(t, `width    = "100 cm"`, fmt.Sprintf(`width = "%s"`, c.loom),
			`reed     = "50/10cm"`, fmt.Sprintf(`reed = "%s"`, c.reed)))
		assert.Equal(t, c.dents, SleyingOf(p).InReed, "%s at %s", c.loom, c.reed)
	}
	for inches := 20; inches <= 60; inches += 5 {
		for _, reed := range []int{5, 6, 8, 9, 10, 12, 15, 18, 20} {
			p := planOf(t, with(t, `width    = "100 cm"`, fmt.Sprintf(`width = "%d in"`, inches),
				`reed     = "50/10cm"`, fmt.Sprintf(`reed = "%d/in"`, reed)))
			assert.Equal(t, inches*reed, SleyingOf(p).InReed, "%d in at %d/in", inches, reed)
		}
	}
}

// TestTieUp: on a rising shed the treadle of block A of halvdräll, whose weft
// lies over shafts 1 and 2, raises 3 and 4; on a sinking one it lowers 1 and 2; where
// shafts are tied both ways it raises 3 and 4 and lowers the others.
func TestTieUp(t *testing.T) {
	for shed, ties := range map[string][]bool{"rising": {false, false, true, true},
		"sinking": {true, true, false, false}, "both": {false, false, true, true}} {
		tie := TieUpOf(planOf(t,
			with(t, `shed     = "rising" `, fmt.Sprintf(`shed = "%s" `, shed))))
		require.Len(t, tie.Treadles, 4)
		assert.Equal(t, Treadle{1, "A", false, ties}, tie.Treadles[0])
		var numbers []int
		var tabby []bool
		for _, treadle := range tie.Treadles {
			numbers, tabby = append(numbers, treadle.Number), append(tabby, treadle.Tabby)
		}
		assert.Equal(t, []int{1, 2, 5, 6}, numbers, "six treadles: two stay free in the middle")
		assert.Equal(t, []bool{false, false, true, true}, tabby)
		assert.Equal(t, BlockTread{"A", "",
			[]Tread{{true, 1, "A"}, {false, 5, "a"}, {true, 1, "A"}, {false, 6, "b"}}},
			tie.Blocks[0])
		assert.Equal(t, "", tie.Blocks[2].Block)
	}
}

// TestTieUpOfTheSample: the one piece has block A in an order of its own; the sample has
// both blocks in the structure's.
func TestTieUpOfTheSample(t *testing.T) {
	text, _, _ := strings.Cut(with(t, "pieces    = 6", "pieces = 1"), "[[piece]]")
	text += "[[piece]]\nname = \"own\"\npick_order = \"P P a P P b\"\nruns = [\"A 9 damson\"]\n"
	var units []string
	for _, b := range TieUpOf(planOf(t, text)).Blocks {
		units = append(units, b.Block+": "+b.Order)
	}
	assert.Equal(t, []string{"A: ", "B: ", "A: P P a P P b"}, units)
}

func TestLetters(t *testing.T) {
	for name, p := range plans(t) {
		letters := LettersOf(p)
		used := map[string]bool{}
		for _, c := range p.Colours {
			letter := letters[c.Name]
			assert.NotEmpty(t, letter, name)
			assert.False(t, used[letter], "%s: %s twice", name, letter)
			used[letter] = true
			_, block := p.Weave.Block(letter)
			assert.False(t, block, "%s is a block", letter)
		}
	}
	assert.Equal(t, map[string]string{"oat": "O", "barley": "R", "damson": "D", "leaf shade": "L",
		"rosehip": "S", "oat thread": "T", "sloe": "E"},
		LettersOf(planOf(t, with(t))))
}

// TestShuttles: a colour that rests for at most 25 mm is carried, beyond that
// cut, and nothing is carried over the end of a piece (common practice, no source).
func TestShuttles(t *testing.T) {
	// "last apples": plain 4 units of 2.5 mm are 10 mm, B 12 rosehip are 30
	text := with(t, `hem       = "oat thread"`, `hem       = "oat"`)
	p := planOf(t, text)
	steps := StepsOf(p, 5)
	uses := map[string]Shuttle{}
	for i, s := range steps {
		for _, u := range s.Shuttles {
			uses[fmt.Sprintf("%d %s", i+1, u.Colour)] = u
		}
	}
	// 1 hem, 2 A 30 damson, 3 plain, 4 B 12 rosehip, 5 plain, 6 A 80 leaf shade, 7 B 36 damson, 8 A
	// 80 leaf shade ...
	assert.Equal(t, Shuttle{Colour: "oat", Starts: true, Then: On, Back: 1}, uses["1 oat"],
		"the hem's yarn weaves on as ground")
	assert.Equal(t, Cut, uses["2 damson"].Then, "damson rests over 50 mm and more")
	assert.Equal(t, 6, uses["2 damson"].Back)
	assert.Equal(t, Cut, uses["6 leaf shade"].Then, "90 mm of damson lie between")
	last := steps[len(steps)-1]
	assert.Equal(t, Cut, last.Shuttles[0].Then)

	near := planOf(t, with(t, `runs = ["A 30 damson", "plain 4", "B 12 rosehip",`,
		`runs = ["A 30 damson", "plain 10", "A 12 damson",`))
	steps = StepsOf(near, 5)
	assert.Equal(t, Carry, steps[1].Shuttles[0].Then, "exactly 25 mm")
	assert.False(t, steps[3].Shuttles[0].Starts)
	far := planOf(t, with(t, `runs = ["A 30 damson", "plain 4", "B 12 rosehip",`,
		`runs = ["A 30 damson", "plain 11", "A 12 damson",`))
	steps = StepsOf(far, 5)
	assert.Equal(t, Cut, steps[1].Shuttles[0].Then, "27.5 mm")
	assert.True(t, steps[3].Shuttles[0].Starts)
}

// TestHandling: A in red, B in blue, A in red again, each too long to carry a weft past:
// each pattern yarn starts and is cut in each run, six tails, the ground starts once and
// is cut once; the second start is from the left.
func TestHandling(t *testing.T) {
	steps := []Step{
		{Kind: Body, Pattern: "red", Ground: "oat", Woven: 40},
		{Kind: Body, Pattern: "blue", Ground: "oat", Woven: 80},
		{Kind: Body, Pattern: "red", Ground: "oat", Woven: 120},
	}
	shuttles(steps)
	assert.Equal(t, Handling{Shuttles: 3, Changes: 2, Tails: 8}, HandlingOf(steps))
	parted := append(slices.Clone(steps), Step{Kind: Separator, Ground: "green", Woven: 120})
	shuttles(parted[3:])
	assert.Equal(t, HandlingOf(steps), HandlingOf(parted), "a separator is cut away")
	var left []bool
	for _, s := range steps {
		left = append(left, s.Shuttles[0].Left)
		assert.False(t, s.Shuttles[1].Left, "the ground starts from the right")
	}
	assert.Equal(t, []bool{false, true, false}, left)
	assert.Equal(t, Handling{}, HandlingOf(nil))
}
