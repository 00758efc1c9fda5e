package svg

import "stripesong/palette"

// coarse is the order of lines that hold more than a weft unit each: one line for
// all units of a run, and mixed ones where runs meet.
func (v *view) coarse(units [][]int) []int {
	all := 0
	for _, run := range v.piece.Runs {
		all += run.Units
	}
	order := make([]int, v.height)
	run, end := 0, v.piece.Runs[0].Units
	for line := range order {
		from, to := line*all, (line+1)*all // a unit is as much as there are lines
		var met []weight
		for from < to {
			upTo := min(to, end*v.height)
			if upTo > from {
				met = append(met, weight{units[run][0], float64(upTo-from) / float64(all)})
				from = upTo
			}
			if from < to {
				run++
				end += v.piece.Runs[run].Units
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
