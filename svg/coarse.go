package svg

import "stripesong/palette"

// upright is a stretch of one kind of weft: its line, and how long it is in parts of
// a weft unit, [unitParts] to one.
type upright struct{ line, parts int }

const unitParts = 1000

// stretches are the runs of a piece and what stays in sight of its ends.
func (v *view) stretches(units [][]int, show []int) (all []upright) {
	if show != nil {
		parts := float64(v.piece.ShowWovenMM / v.plan.UnitMM(v.piece) * unitParts)
		all = append(all, upright{show[0], max(1, int(parts+0.5))})
	}
	for i, run := range v.piece.Runs {
		all = append(all, upright{units[i][0], run.Units * unitParts})
	}
	if show != nil {
		all = append(all, all[0])
	}
	return all
}

// coarse is the order of lines that hold more than a weft unit each: one line for
// all units of a run, and mixed ones where runs meet.
func (v *view) coarse(stretches []upright) []int {
	all := 0
	for _, s := range stretches {
		all += s.parts
	}
	order := make([]int, v.height)
	run, end := 0, stretches[0].parts
	for line := range order {
		from, to := line*all, (line+1)*all // a part is as much as there are lines
		var met []weight
		for from < to {
			upTo := min(to, end*v.height)
			if upTo > from {
				met = append(met, weight{stretches[run].line, float64(upTo-from) / float64(all)})
				from = upTo
			}
			if from < to {
				run++
				end += stretches[run].parts
			}
		}
		order[v.height-1-line] = v.mixedLine(met)
	}
	return order
}

// mixedLine is a line that several share by height.
func (v *view) mixedLine(met []weight) int {
	if len(met) == 1 {
		return met[0].of
	}
	line := make([]int32, v.width)
	for x := range line {
		var light palette.Linear
		for _, m := range met {
			light = plusLight(light, m.part, v.colours[v.lines[m.of][x]].light)
		}
		line[x] = v.tint(light)
	}
	v.lines = append(v.lines, line)
	return len(v.lines) - 1
}
