package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/weave"
)

// notes raises all notes of a plan, what the weaver should know, and puts warnings first.
func (m *maker) notes() {
	m.loomNotes()
	m.midwayNotes()
	m.reedNote()
	m.floatNote()
	m.narrowedNote()
	m.settNote()
	m.beatNotes()
	m.yarnNotes()
	m.costNote()
	m.sizeNotes()
	m.unitNotes()
	m.contrastNotes()
	m.setNotes()
	m.alikeNote()
	m.familyNote()
	m.briefNotes()
	m.cautions()
	m.plan.Notes = append(m.plan.NotesOf(Warning), m.plan.NotesOf(Remark)...)
}

// NotesOf lists the notes of a level in the order of the plan.
func (p *Plan) NotesOf(level Level) []Note {
	notes := make([]Note, 0, len(p.Notes))
	for _, n := range p.Notes {
		if n.Level == level {
			notes = append(notes, n)
		}
	}
	return notes
}

// note raises a note, but none about what is settled once the warp is on the loom.
func (m *maker) note(level Level, code, message string, values ...any) {
	if m.b.Midway != nil && slices.Contains(settledOnLoom, code) {
		return
	}
	m.plan.Notes = append(m.plan.Notes,
		Note{Level: level, Code: code, Message: fmt.Sprintf(message, values...)})
}

func (m *maker) mm(v float64) string { return measure.FormatLength(v, m.b.Units) }

// loomNotes holds the plan against the board and the loom.
func (m *maker) loomNotes() {
	l, w := m.b.Loom, m.plan.Warp
	m.plan.Loom = Loom{Shafts: l.Shafts, Treadles: l.Treadles, Shed: l.Shed,
		WasteMM: exact.Rounded(l.Waste.MM),
		Heddles: l.Heddles, HeddlesBy: l.HeddlesBy, Bout: l.Bout, Dress: l.Dress,
		ThreadFrom: l.ThreadFrom, Pace: l.Pace}
	loom := &m.plan.Loom
	m.tieUp()
	m.raddle()
	if l.Board != nil {
		if loom.BoardMM = exact.Rounded(l.Board.MM); m.woundMM.Cmp(l.Board.MM) > 0 {
			m.note(Warning, "board-short",
				"the warp is %s long and the board holds %s: wind it in two parts, or make "+
					"fewer or shorter pieces", measure.FormatWarp(w.WoundMM, m.b.Units), l.Board)
		}
	}
	if l.Width != nil {
		if loom.WidthMM = exact.Rounded(l.Width.MM); m.reedWidthMM.Cmp(l.Width.MM) > 0 {
			m.note(Warning, "loom-narrow", "the warp is %s wide in the reed and the loom takes %s",
				m.mm(w.ReedWidthMM), l.Width)
		}
	}
	if m.s.Shafts > l.Shafts {
		m.note(Warning, "shafts", "%s needs %d shafts and the loom has %d", m.s.Name, m.s.Shafts,
			l.Shafts)
	}
	m.treadleNotes()
	m.heddleNotes()
}

// heddleNotes counts in all, or shaft by shaft where the brief does.
func (m *maker) heddleNotes() {
	l, w := m.b.Loom, m.plan.Warp
	if l.HeddlesBy == nil && l.Heddles > 0 && w.Ends > l.Heddles {
		m.note(Warning, "heddles", "the warp needs %d heddles and the loom has %d", w.Ends,
			l.Heddles)
	}
	for i, n := range w.Heddles {
		if i < len(l.HeddlesBy) && n > l.HeddlesBy[i] {
			m.note(Warning, "heddles",
				"shaft %d needs %d heddles and has %d: move %d there before threading", i+1, n,
				l.HeddlesBy[i], n-l.HeddlesBy[i])
		}
	}
}

// nearSett is how far a sleying may be from the sett, as a share of it, before
// the reed is said not to give it (common practice, no source).
const nearSett = 0.02

func (m *maker) reedNote() {
	reed := m.b.Loom.Reed
	if reed == nil {
		return
	}
	sett := m.b.Cloth.Sett
	dents, gives := sley(sett.PerMM, reed.PerMM)
	loom := &m.plan.Loom
	loom.Reed, loom.ReedPerCM, loom.Sleying, loom.SleyedPerCM = reed.String(), perCM(reed.PerMM),
		dents, perCM(gives)
	if width := m.b.Loom.Width; width != nil {
		loom.DentsAcross = exact.Floor(exact.Times(width.MM, reed.PerMM))
	}
	if gives.Cmp(sett.PerMM) == 0 {
		return
	}
	wide := m.mm(exact.Float(exact.Over(exact.Whole(m.plan.Warp.Ends), gives)))
	off := exact.Float(exact.Over(gives, sett.PerMM)) - 1
	message := "a reed of %s can't give %s: the nearest is %s ends a dent, which gives %s, %s %% " +
		"%s, and a warp %s wide in the reed instead of %s"
	level, code := Remark, "reed-near"
	if math.Abs(off) > nearSett {
		level, code = Warning, "reed-sett"
	}
	m.note(level, code, message, reed, sett, sleyingInWords(dents),
		measure.FormatDensity(exact.Float(gives), m.b.Units),
		oneDecimal(100*math.Abs(off)), closerOrWider(off), wide, m.mm(m.plan.Warp.ReedWidthMM))
}

func closerOrWider(off float64) string {
	if off > 0 {
		return "closer"
	}
	return "wider"
}

func oneDecimal(v float64) string { return fmt.Sprintf("%.1f", v) }

// sleyingInWords writes ends by dent as the trade does, 1-2-2.
func sleyingInWords(dents []int) string {
	words := make([]string, len(dents))
	for i, n := range dents {
		words[i] = fmt.Sprint(n)
	}
	return strings.Join(words, "-")
}

func (m *maker) floatNote() {
	c := m.plan.Cloth
	if c.FloatWeftMM > warnedFloatMM {
		m.note(Warning, "float-long",
			"the longest weft float, over %d ends, is %s finished: more than %s catches on things",
			c.FloatWeftEnds, m.fine(c.FloatWeftMM), m.fine(warnedFloatMM))
	}
	if c.FloatWarpMM > warnedFloatMM {
		m.note(Warning, "float-long",
			"the longest warp float, over %d picks, is %s finished: more than %s catches on things",
			c.FloatWarpPicks, m.fine(c.FloatWarpMM), m.fine(warnedFloatMM))
	}
	if m.b.Cloth.FloatingSelvedge {
		return
	}
	missed := 0
	for i, runs := range m.weftRuns {
		left, right := weave.SelvedgeMisses(m.threading,
			m.in(i).Picks(m.plan.Pieces[i].EndPicks(), m.strips(runs)), true)
		missed = max(missed, left.Ends, right.Ends)
	}
	if missed > 0 {
		m.note(Remark, "selvedge-missed",
			"without floating selvedges the pattern weft misses up to %d of the outermost ends "+
				"where it turns", missed)
	}
}

// nearSize is how far a finished size may be from what was asked for, as a part of that
// (a judgement).
const nearSize = 0.02

// sizeNotes tells of finished and woven sizes that are off what the brief asks for.
func (m *maker) sizeNotes() {
	w := m.plan.Warp
	level := Warning
	if m.b.Warp.Runs != nil && !m.warpByRule() {
		level = Remark
	}
	if m.b.Midway == nil {
		m.sizeNote(sizeOff{level, "wide", w.FinishedWidthMM, w.WantedWidthMM},
			[]string{"the cloth"})
	}
	m.pieceSizes("long finished", func(p Piece) (is, wanted float64) {
		return p.FinishedMM, p.WantedMM
	})
	if woven := m.b.Set.Woven; woven != nil {
		m.pieceSizes("long on the loom", func(p Piece) (is, wanted float64) {
			return p.WovenMM, exact.Rounded(woven.MM)
		})
	}
}

// sizeOff is a size and the one that was asked for.
type sizeOff struct {
	level      Level
	which      string
	is, wanted float64
}

// pieceSizes notes one length of all pieces, those that are off alike together.
func (m *maker) pieceSizes(which string, of func(Piece) (is, wanted float64)) {
	var order []sizeOff
	names := make(map[sizeOff][]string)
	for i, p := range m.plan.Pieces {
		if i < m.woven() {
			continue
		}
		one := sizeOff{level: Warning, which: which}
		if p.Origin == "runs" {
			one.level = Remark
		}
		one.is, one.wanted = of(p)
		if names[one] == nil {
			order = append(order, one)
		}
		names[one] = append(names[one], m.called(i))
	}
	for _, one := range order {
		m.sizeNote(one, names[one])
	}
}

func (m *maker) sizeNote(s sizeOff, names []string) {
	if s.wanted == 0 || math.Abs(s.is-s.wanted) <= float64(nearSize*s.wanted) {
		return
	}
	why := "because units are whole"
	if s.level == Remark {
		why = "because of its runs"
	}
	comes := "comes"
	if len(names) > 1 {
		comes, why = "come", strings.Replace(why, "its", "their", 1)
	}
	m.note(s.level, "size-off", "%s %s out %s %s, %s %% off the %s asked for, %s", some(names),
		comes, m.mm(s.is), s.which,
		oneDecimal(100*math.Abs(s.is-s.wanted)/s.wanted), m.mm(s.wanted), why)
}

// briefNotes tells what was assumed and what was passed over.
func (m *maker) briefNotes() {
	if len(m.b.LeftOut) > 0 {
		m.note(Remark, "left-out", "a set of %d leaves out these pieces of the brief: %s",
			m.b.Set.Pieces,
			some(quoted(m.b.LeftOut)))
	}
	if len(m.b.Unmoved) > 0 {
		m.note(Remark, "held", "held, so flags do not change them: %s",
			some(quoted(m.b.Unmoved)))
	}
	m.retieNote()
	m.fringeNote()
	if len(m.b.Assumed) > 0 {
		m.note(Remark, "assumed",
			"not in the brief, so assumed: %s; weave a sample and measure",
			strings.Join(m.b.Assumed, ", "))
	}
	if unused := m.unusedRules(); len(unused) > 0 {
		m.note(Remark, "runs-win", "runs are written out, so these are not used: %s",
			strings.Join(unused, ", "))
	}
}

// retieNote tells that no warp is reckoned for tying on again once the sample
// has been cut off.
func (m *maker) retieNote() {
	if m.b.Loom.Sample.MM.Sign() > 0 && m.b.Loom.RetieMM().Sign() == 0 {
		m.note(Remark, "retie-none",
			"the plan has no warp for tying on again after the sample is cut off: "+
				"weave it and leave it on, or write retie = %q in [loom]", m.usualRetie())
	}
}

// fringeNote tells that an end can't have a hem and a fringe.
func (m *maker) fringeNote() {
	if fringe, hem := m.b.Set.Fringe, m.b.Set.Hem; fringe.MM.Sign() > 0 && hem.MM.Sign() > 0 {
		m.note(Remark, "fringe-hem",
			"a fringe of %s and a hem of %s at the same end: a hem would fold the fringe in; "+
				"write hem = \"0 cm\" or fringe = \"0 cm\" in [set]", m.mm(m.plan.Cloth.FringeMM),
			m.mm(m.plan.Cloth.HemMM))
	}
}

// usualRetie is what tying on again usually takes (common practice, no source).
func (m *maker) usualRetie() string {
	if m.b.Units == "in" {
		return "10 in"
	}
	return "25 cm"
}

func quoted(names []string) []string {
	all := make([]string, len(names))
	for i, n := range names {
		all[i] = fmt.Sprintf("%q", n)
	}
	return all
}

// cautions always stand.
func (m *maker) cautions() {
	sample := "wrap the yarns, weave a sample and wash it before trusting contrast and shrinkage"
	if m.look.Known() {
		sample = "wrap the yarns; contrast relies on spread and scatter in the brief, as " +
			"measured on a sample"
	}
	m.note(Remark, "sample-first", "colours on a screen are not yarn: %s", sample)
	m.note(Remark, "dye-bleed",
		"strong dyes may bleed in the first wash: wash dark and red yarns by themselves the "+
			"first time, cool or where there is wool lukewarm, and test them on a scrap")
}
