package workbench

import (
	"fmt"
	"slices"

	"stripesong/sequence"
)

var runOps = []Operation{
	{"keep", "strip", (*draft).keep, false},
	{"loose", "strip", (*draft).loose, false},
	{"edge", "strip, run (before the edge), to (by how many units)", (*draft).edge, false},
	{"swap", "strip, run (with the next)", (*draft).swap, false},
	{"units", "strip, run, to", (*draft).units, false},
	{"recolour", "strip, run, colour", (*draft).runColour, false},
	{"reblock", "strip, run, value (a block, or plain)", (*draft).runBlock, false},
	{"split", "strip, run, colour (of the new run; \"\" for the same)", (*draft).split, false},
	{"share", "strip, value (a block), to (its part of all blocks, in hundredths)", (*draft).share,
		false},
	{"drop", "strip, run", (*draft).dropRun, false},
	{"turn", "strip", (*draft).turn, false},
	{"mirror", "strip", (*draft).mirror, false},
}

// keep writes a strip out as the runs it has, so that nothing changes it but
// the weaver.
func (d *draft) keep(op Op) (string, error) {
	return fmt.Sprintf("%s is kept as it is", d.called(op.Strip)),
		d.reshape(op.Strip, func(all []run) ([]run, error) { return all, nil })
}

// loose takes the runs away again, so that the rules hold.
func (d *draft) loose(op Op) (string, error) {
	table, err := d.table(op.Strip)
	if err != nil {
		return "", err
	}
	if !d.has(table + ".runs") {
		return "", refuse("", "%s has no runs of its own to let go of", d.called(op.Strip))
	}
	if err := d.colours(op.Strip, table); err != nil {
		return "", err
	}
	if rule, err := d.rule(op.Strip); err == nil && rule.Rhythm == nil {
		return "", refuse("choose a rhythm for it", "%s has no rhythm to go by", d.called(op.Strip))
	}
	if err := d.unhold(table); err != nil {
		return "", err
	}
	return fmt.Sprintf("%s follows its rhythm again", d.called(op.Strip)), d.set(table+".runs", "")
}

// at checks the number of a run of a strip and of how many after it.
func at(strip int, all []run, i, after int) error {
	if i < 0 || i+after >= len(all) {
		return refuse("", "there is no %s %d", noun(strip), i+after+1)
	}
	return nil
}

// edge moves the edge between two runs by whole units; both keep one at least.
func (d *draft) edge(op Op) (string, error) {
	moved := 0
	err := d.reshape(op.Strip, func(all []run) ([]run, error) {
		if err := at(op.Strip, all, op.Run, 1); err != nil {
			return nil, err
		}
		moved = min(max(op.To, 1-all[op.Run].units), all[op.Run+1].units-1)
		all[op.Run].units += moved
		all[op.Run+1].units -= moved
		return all, nil
	})
	if err == nil && moved == 0 {
		err = refuse("", "a %s has one unit at least", noun(op.Strip))
	}
	edge := fmt.Sprintf("%s: edge %d", d.called(op.Strip), op.Run+1)
	if err == nil {
		moved += d.movedBefore(op)
		d.home = moved == 0
	}
	if d.home {
		return edge + " is where it was", err
	}
	edge += fmt.Sprintf(" moved by %+d %s", moved, unitWord(moved))
	return edge + everywhere(op.Strip), err
}

// movedBefore is by how many units the gesture has moved the edge already.
func (d *draft) movedBefore(op Op) int {
	b := d.bench.begunBy(op.Gesture)
	if b == nil {
		return 0
	}
	was, now := b.runs(op.Strip), d.before
	if len(was) != len(now) {
		return 0
	}
	return now[op.Run].units - was[op.Run].units
}

// noun is what a run of a strip is called.
func noun(strip int) string {
	if strip == Warp {
		return "stripe"
	}
	return "band"
}

// everywhere is said of what changes in all pieces.
func everywhere(strip int) string {
	if strip == Warp {
		return ", in all pieces"
	}
	return ""
}

func unitWord(n int) string {
	if n == 1 || n == -1 {
		return "unit"
	}
	return "units"
}

func (d *draft) swap(op Op) (string, error) {
	return fmt.Sprintf("%s: %ss %d and %d change places", d.called(op.Strip), noun(op.Strip),
			op.Run+1, op.Run+2) + everywhere(op.Strip),
		d.reorder(op.Strip, func(places []int) error {
			if op.Run < 0 || op.Run+1 >= len(places) {
				return refuse("", "there is no %s %d", noun(op.Strip), op.Run+2)
			}
			places[op.Run], places[op.Run+1] = places[op.Run+1], places[op.Run]
			return nil
		})
}

// change changes one run of a strip.
func (d *draft) change(op Op, what string, change func(*run) error) (string, error) {
	said := fmt.Sprintf("%s: %s %d %s", d.called(op.Strip), noun(op.Strip), op.Run+1, what)
	if d.already(op, change) {
		d.same = true
		return said + " already, so nothing has changed", nil
	}
	return said + everywhere(op.Strip),
		d.reshape(op.Strip, func(all []run) ([]run, error) {
			if err := at(op.Strip, all, op.Run, 0); err != nil {
				return nil, err
			}
			return all, change(&all[op.Run])
		})
}

// already tells whether a run is as a change would make it.
func (d *draft) already(op Op, change func(*run) error) bool {
	all, err := d.runs(op.Strip)
	if err != nil || at(op.Strip, all, op.Run, 0) != nil {
		return false
	}
	was := all[op.Run]
	return change(&all[op.Run]) == nil && all[op.Run] == was
}

func (d *draft) units(op Op) (string, error) {
	return d.change(op, fmt.Sprintf("has %d %s", op.To, unitWord(op.To)), func(r *run) error {
		if op.To < 1 {
			return refuse("", "a %s has one unit at least", noun(op.Strip))
		}
		r.units = op.To
		return nil
	})
}

func (d *draft) runColour(op Op) (string, error) {
	if _, err := d.colour(op.Colour); err != nil {
		return "", err
	}
	return d.change(op, "in "+op.Colour, func(r *run) error {
		if r.block == "" {
			return refuse("give it a block first", "a plain %s has no pattern yarn", noun(op.Strip))
		}
		r.colour = op.Colour
		return nil
	})
}

func (d *draft) runBlock(op Op) (string, error) {
	return d.change(op, "is "+op.Value, func(r *run) error {
		switch {
		case op.Value == "plain" && op.Strip != Warp:
			r.block, r.colour = "", ""
		case slices.Contains(d.bench.brief.Structure.Letters(), op.Value):
			if r.block == "" {
				r.colour = d.anyColour(op.Strip)
			}
			r.block = op.Value
		default:
			return refuse("", "there is no block %q", op.Value)
		}
		return nil
	})
}

// anyColour is a colour for a run that had none: the strip's first.
func (d *draft) anyColour(strip int) string {
	if all, err := d.runs(strip); err == nil {
		for _, r := range all {
			if r.colour != "" {
				return r.colour
			}
		}
	}
	if rule, err := d.rule(strip); err == nil && len(rule.Colours) > 0 {
		return d.bench.brief.Colours[rule.Colours[0]].Name
	}
	return d.bench.brief.Colours[0].Name
}

// split makes two runs of one.
func (d *draft) split(op Op) (string, error) {
	return fmt.Sprintf("%s: %s %d divided", d.called(op.Strip), noun(op.Strip), op.Run+1) +
			everywhere(op.Strip),
		d.reshape(op.Strip, func(all []run) ([]run, error) {
			if err := at(op.Strip, all, op.Run, 0); err != nil {
				return nil, err
			}
			second := all[op.Run]
			if second.units < 2 {
				return nil, refuse("", "one unit can't be divided")
			}
			second.units /= 2
			if op.Colour != "" && second.block != "" {
				if _, err := d.colour(op.Colour); err != nil {
					return nil, err
				}
				second.colour = op.Colour
			}
			all[op.Run].units -= second.units
			return slices.Insert(all, op.Run+1, second), nil
		})
}

// dropRun takes a run out; its neighbour takes over its units, so that the
// strip stays as wide as it is.
func (d *draft) dropRun(op Op) (string, error) {
	return fmt.Sprintf("%s: %s %d taken out", d.called(op.Strip), noun(op.Strip), op.Run+1) +
			everywhere(op.Strip),
		d.reshape(op.Strip, func(all []run) ([]run, error) {
			if err := at(op.Strip, all, op.Run, 0); err != nil {
				return nil, err
			}
			if len(all) == 1 {
				return nil, refuse("", "one %s has to stay", noun(op.Strip))
			}
			heir := op.Run - 1
			if op.Run == 0 {
				heir = 1
			}
			all[heir].units += all[op.Run].units
			return slices.Delete(all, op.Run, op.Run+1), nil
		})
}

// turn puts the last run first.
func (d *draft) turn(op Op) (string, error) {
	if all, err := d.runs(op.Strip); err == nil && palindrome(all) {
		return d.alike(op.Strip), nil
	}
	return fmt.Sprintf("%s turned end for end", d.called(op.Strip)) + everywhere(op.Strip),
		d.reorder(op.Strip, func(places []int) error { slices.Reverse(places); return nil })
}

func (d *draft) mirror(op Op) (string, error) {
	if all, err := d.runs(op.Strip); err == nil && palindrome(all) {
		return d.alike(op.Strip), nil
	}
	return fmt.Sprintf("%s mirrored on its middle", d.called(op.Strip)) + everywhere(op.Strip),
		d.reshape(op.Strip, func(all []run) ([]run, error) { return mirrored(all), nil })
}

// alike says that there is nothing to turn and nothing to mirror.
func (d *draft) alike(strip int) string {
	d.same = true
	return fmt.Sprintf("%s: it reads the same from both ends, so nothing has changed",
		d.called(strip))
}

// palindrome tells whether runs read the same from both ends.
func palindrome(all []run) bool {
	all = joined(all)
	back := slices.Clone(all)
	slices.Reverse(back)
	return slices.Equal(all, back)
}

// lopsided is said where a warp that read the same from both ends does so no longer.
func (d *draft) lopsided(op Op) string {
	was := d.before
	if b := d.bench.begunBy(op.Gesture); b != nil && op.Strip == Warp {
		was = b.runs(Warp)
	}
	if op.Strip != Warp || d.after == nil || !palindrome(was) || palindrome(d.after) {
		return ""
	}
	return "; it no longer reads the same from both sides"
}

// share gives a block another part of a strip, which stays as long as it is: its runs
// grow or shrink alike, and so do those of the other blocks.
func (d *draft) share(op Op) (string, error) {
	what := fmt.Sprintf("%s: %s is %d %% of its blocks", d.called(op.Strip), op.Value, op.To)
	return what + everywhere(op.Strip), d.reshape(op.Strip, func(all []run) ([]run, error) {
		return shared(all, op.Value, op.To)
	})
}

func shared(all []run, block string, hundredths int) ([]run, error) {
	var own, others []int // the runs of the block, and of other blocks
	total := 0
	for i, r := range all {
		switch r.block {
		case "":
			continue
		case block:
			own = append(own, i)
		default:
			others = append(others, i)
		}
		total += r.units
	}
	part := (total*hundredths + 50) / 100
	part = min(max(part, len(own)), total-len(others))
	if len(own) == 0 || len(others) == 0 {
		return nil, refuse("", "only a strip of two blocks or more can be shared out otherwise")
	}
	if err := scaleTo(all, own, part); err != nil {
		return nil, err
	}
	return all, scaleTo(all, others, total-part)
}

// scaleTo gives some runs so many units together, in proportion to those they have.
func scaleTo(all []run, at []int, units int) error {
	weights := make([]int64, len(at))
	for i, k := range at {
		weights[i] = int64(all[k].units)
	}
	each, err := sequence.Share(weights, units, sequence.Limits{})
	for i := range each {
		all[at[i]].units = each[i]
	}
	return err
}
