package packet_test

import (
	"fmt"
	"slices"
)

// weaveSheet throws every pick of a sheet, from its first step up.
func (w *weaver) weaveSheet(s *sheet) {
	pattern, ground := 0, 0
	for i, st := range s.steps {
		w.check(st.number == i+1, "step %d stands where %d is due", st.number, i+1)
		if st.kind == "bare" {
			w.leaveBare(s, st)
			continue
		}
		picks := w.throwStep(s, st)
		s.steps[i].thrown = picks
		if st.kind == "separator" {
			s.separator = append(s.separator, picks...)
			continue
		}
		s.picks = append(s.picks, picks...)
		for _, p := range picks {
			if p.pattern {
				pattern++
			} else {
				ground++
			}
		}
		w.soFar(s, s.steps[i], pattern, ground)
	}
	w.follow(s)
}

// soFar holds what is woven against what a step says by then.
func (w *weaver) soFar(s *sheet, st step, pattern, ground int) {
	w.check(st.soFar == fmt.Sprint(pattern+ground),
		"step %d: %d picks are woven, and it says %s", st.number, pattern+ground, st.soFar)
	if pattern > 0 || st.both != "" {
		w.check(st.both == fmt.Sprintf("%d + %d", pattern, ground),
			"step %d: %d + %d, and it says %s", st.number, pattern, ground, st.both)
	}
	s.woven = w.length(st.woven)
	w.grow(s, st)
	w.check(s.woven.within(s.reckoned.v, s.reckoned.half),
		"step %d: %.1f mm by its densities, and it says %s", st.number, s.reckoned.v, st.woven)
}

// grow reckons the length by the picks and how close they are said to lie.
func (w *weaver) grow(s *sheet, st step) {
	beat := map[bool]amount{true: s.beat.pattern, false: s.beat.ground}
	if st.kind != "body" {
		beat[false] = s.beat.hem
	}
	n := map[bool]int{}
	for _, p := range st.thrown {
		n[p.pattern]++
	}
	ground := lie(n[false], beat[false])
	if n[true] > 0 {
		pattern := lie(n[true], beat[true])
		w.check(pattern.within(ground.v, ground.half),
			"step %d: pattern picks take %.1f mm, ground picks %.1f", st.number, pattern.v,
			ground.v)
	}
	s.reckoned.v, s.reckoned.half = s.reckoned.v+ground.v, s.reckoned.half+ground.half
}

// lie is the length of some picks, and how far off it may be.
func lie(picks int, close amount) amount {
	if close.v <= close.half {
		return amount{}
	}
	length := float64(picks) / close.v
	return amount{length, length * close.half / (close.v - close.half)}
}

// leaveBare leaves warp unwoven before the first pick, or after the last.
func (w *weaver) leaveBare(s *sheet, st step) {
	at := 0
	if len(s.picks) > 0 {
		at = 1
	}
	w.check(s.bare[at].v == 0 && (at == 1 || st.number == 1),
		"step %d: bare warp within the piece", st.number)
	w.check(fmt.Sprint(st.picks) == "[0]", "step %d: picks in bare warp", st.number)
	w.check(st.stitched == (at == 1), "step %d: hemstitched before there is cloth, or not after",
		st.number)
	s.bare[at] = st.bare
}

// throwStep is the picks of one step: units over and over, or tabby in turn.
func (w *weaver) throwStep(s *sheet, st step) (picks []pick) {
	unit := []throw{{false, w.loom.tabby[0]}, {false, w.loom.tabby[1]}}
	if st.kind == "body" {
		unit = w.unitOf(st.block, s.number)
	}
	var sheds []string
	for _, t := range unit {
		sheds = append(sheds, t.shed)
	}
	w.check(slices.Equal(sheds, st.treads),
		"step %d: the list treads %q, and the unit is %q", st.number, st.treads, sheds)
	count := st.units * len(unit)
	if st.kind != "body" && len(st.picks) == 1 {
		count = st.picks[0]
	}
	thrown := map[bool]int{}
	for n := range count {
		t := unit[n%len(unit)]
		p := pick{t.pattern, st.ground, t.shed}
		if t.pattern {
			p.colour = st.pattern
		}
		thrown[t.pattern]++
		picks = append(picks, p)
	}
	want := []int{thrown[true], thrown[false]}
	w.check(slices.Equal(st.picks, want[2-len(st.picks):]) && (len(st.picks) == 2) == (want[0] > 0),
		"step %d: %v picks are thrown, and it says %v", st.number, want, st.picks)
	return picks
}

// shuttle is a yarn on its way, and where it lies.
type shuttle struct {
	right bool
	step  int    // it is expected in, where it is carried or weaves on
	since amount // the length from which it rests
}

// which is a shuttle by its yarn and role.
type which struct {
	letter  string
	pattern bool
}

// hands is the shuttles that are under way.
type hands struct {
	running map[which]*shuttle
	left    bool   // the next pattern shuttle starts from the left
	before  amount // woven before the step
	length  amount // and with it
}

// follow goes through a sheet with every shuttle: none is thrown that was not started,
// none is left hanging, and where the ground lies tells the tabby.
func (w *weaver) follow(s *sheet) {
	h := &hands{running: map[which]*shuttle{}}
	for _, st := range s.steps {
		h.before = h.length
		if st.kind != "separator" && st.kind != "bare" {
			h.length = w.length(st.woven)
		}
		said := w.toldOf(st)
		for _, k := range shuttlesOf(st) {
			w.throwShuttle(h, st, k, said[k])
		}
		for k, sh := range h.running {
			w.check(sh.step > st.number,
				"step %d: shuttle %s was to come back", st.number, k.letter)
		}
	}
	w.check(len(h.running) == 0, "%d shuttles hang from the last pick", len(h.running))
}

// throwShuttle is one shuttle in one step.
func (w *weaver) throwShuttle(h *hands, st step, k which, told use) {
	sh := h.running[k]
	w.check((sh == nil) == told.start,
		"step %d: shuttle %s starts, or goes on, against the list", st.number, k.letter)
	if sh == nil {
		w.check(told.left == (k.pattern && h.left),
			"step %d: shuttle %s starts from the other edge", st.number, k.letter)
		h.left = h.left != k.pattern
		sh = &shuttle{right: !told.left}
		h.running[k] = sh
	} else {
		w.resume(h, st, k, sh)
	}
	if !k.pattern {
		w.groundTabby(st, sh)
	}
	w.check(told.lastTail.v == 0 || sh.right,
		"step %d: the tail to hemstitch with hangs at the left edge", st.number)
	sh.step, sh.since = st.number+1, h.length
	if told.carry > 0 {
		sh.step = told.carry
	}
	if told.cut {
		delete(h.running, k)
	}
}

// resume takes a yarn up again that has rested.
func (w *weaver) resume(h *hands, st step, k which, sh *shuttle) {
	w.check(sh.step == st.number,
		"step %d: shuttle %s was expected in step %d", st.number, k.letter, sh.step)
	if sh.since != h.before {
		way, give := h.before.v-sh.since.v, h.before.half+sh.since.half
		w.check(way <= w.cloth.carry.v+w.cloth.carry.half+give,
			"step %d: shuttle %s is carried over %.1f mm", st.number, k.letter, way)
	}
}

// shuttlesOf is the shuttles of a step.
func shuttlesOf(st step) (all []which) {
	if st.pattern != "" {
		all = append(all, which{st.pattern, true})
	}
	if st.ground != "" {
		all = append(all, which{st.ground, false})
	}
	return all
}

// toldOf is what the list says of each shuttle of a step.
func (w *weaver) toldOf(st step) map[which]use {
	told := map[which]use{}
	for _, u := range st.shuttles {
		var fits []which
		for _, k := range shuttlesOf(st) {
			if k.letter == u.letter && (u.role == "" || (u.role == "pattern") == k.pattern) {
				fits = append(fits, k)
			}
		}
		if len(fits) != 1 {
			w.doubt("step %d: which shuttle is %v?", st.number, u)
			continue
		}
		told[fits[0]] = u
	}
	return told
}

// groundTabby throws the ground picks of a step: at the right edge a comes next.
func (w *weaver) groundTabby(st step, sh *shuttle) {
	for _, p := range st.thrown {
		if p.pattern {
			continue
		}
		next := w.loom.tabby[1]
		if sh.right {
			next = w.loom.tabby[0]
		}
		if p.shed != next {
			w.doubt("step %d: where the ground lies, %s comes next, and %s is woven",
				st.number, next, p.shed)
			return
		}
		sh.right = !sh.right
	}
}
