package packet_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// TestWeaveMadeUpBriefs weaves briefs of every structure, loom and dressing, in both
// systems of units, with names that read like the words of the page.
func TestWeaveMadeUpBriefs(t *testing.T) {
	want := 15
	if allChecks() {
		want = 100
	}
	planned, refused := 0, 0
	for seed := uint64(1); planned < want; seed++ {
		text := madeUp(seed)
		b, err := brief.Parse("made up", []byte(text), brief.Options{})
		require.NoError(t, err, text)
		if _, err = plan.Make(context.Background(), b); err != nil {
			refused++
			require.Less(t, refused, want, "%v\n%s", err, text)
			continue
		}
		planned++
		name := fmt.Sprintf("brief %d", seed)
		if !t.Run(name, func(t *testing.T) { weaveBrief(t, []byte(text)) }) {
			t.Log(text)
		}
	}
}

// allChecks tells whether all checks are run, as on the build machine.
func allChecks() bool { return os.Getenv("STRIPESONG_CI") != "" && !testing.Short() }

// TestWeaveLongLists weaves a piece of hundreds of changes, and one of two endless ones.
func TestWeaveLongLists(t *testing.T) {
	var runs []string
	for i := range 120 {
		runs = append(runs, fmt.Sprintf(`"%c %d damson"`, "AB"[i%2], i%3+1))
	}
	for name, list := range map[string][]string{
		"many changes": runs,
		"one block":    {`"A 900 damson"`, `"B 700 sloe"`},
	} {
		t.Run(name, func(t *testing.T) {
			text := string(brief.Default())
			from := strings.LastIndex(text, "\nruns = [") + 1
			to := from + strings.Index(text[from:], "]\n")
			weaveBrief(t, []byte(text[:from]+"runs = ["+strings.Join(list, ", ")+text[to:]))
		})
	}
}

// maker makes briefs up by chance.
type maker struct {
	*rand.Rand
	strings.Builder
	cloth   fabric
	unit    string // "cm" or "in"
	colours []string
}

// fabric is a structure and how it may be woven.
type fabric struct {
	name, table string
	orders      []string
	widest      int // units of a run in the warp
	shafts      int
	blocks      string
	closes      bool // it may have a closing end
}

var fabrics = []fabric{
	{name: "halvdrall",
		orders: []string{"P P a P P b", "P a b", "a P b P", "P a P b P a P b"}, widest: 9,
		shafts: 4, blocks: "AB",
		closes: true},
	{name: "summer-and-winter",
		orders: []string{"P1 a P2 b P2 a P1 b", "P1 a P1 b", "P2 a P1 b"}, widest: 9, shafts: 4,
		blocks: "AB",
		closes: true},
	{name: "monks-belt",
		orders: []string{"P P a P P b", "a P b P"}, widest: 3, shafts: 4, blocks: "AB"},
	{name: "three blocks", table: `units = { A = [1, 3, 2, 3], B = [1, 4, 2, 4], C = [1, 5, 2, 5] }
shafts = 5
pick_order = "P1 a P2 b"
sheds = { A = [[1, 3], [2, 3]], B = [[1, 4], [2, 4]], C = [[1, 5], [2, 5]] }
tabby = { a = [1, 2], b = [3, 4, 5] }`,
		orders: []string{"P2 a P1 b", "P1 a P1 b"}, widest: 9, shafts: 5, blocks: "ABC",
		closes: true},
	{name: "one of six", table: `units = { A = [1, 2], B = [3, 4] }
shafts = 6
pick_order = "P1 a P2 b"
sheds = { A = [[1, 2], [1, 2, 5, 6]], B = [[3, 4], [3, 4, 5]] }
tabby = { a = [1, 3, 5], b = [2, 4, 6] }`, widest: 3, shafts: 6, blocks: "AB"},
	{name: "tabby too", table: `units = { A = [1, 2, 3, 2], B = [3, 4, 1, 4] }
shafts = 4
pick_order = "P1 a P2 b P1 a P2 b"
sheds = { A = [[1, 3], [1, 2]], B = [[3, 4], [3, 4]] }
tabby = { a = [1, 3], b = [2, 4] }`, widest: 9, shafts: 4, blocks: "AB"},
}

// awkward are names of colours and pieces that read like what stands around them.
var awkward = []string{"oat", "sea 2", "red, dark", "stone on sand", "a · b", "D damson",
	"block A, 3 units", "5 6", "X: start", "12.5 cm", "<b>bold</b> & more", "\\\"said\\\"",
	"på öl", "☐10", "and", "60 + 60", "oat oat", "1", "Piece 2 of 3: it", "hem", "–",
	"deep  sea", "bell\\u0007", "a colour whose name is longer than any line of a card has room"}

func madeUp(seed uint64) string {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 14))}
	m.cloth = fabrics[seed%uint64(len(fabrics))]
	m.unit = m.one("cm", "in")
	for _, i := range m.Perm(len(awkward))[:3+m.IntN(6)] {
		m.colours = append(m.colours, awkward[i])
	}
	m.line("title = %q", "Made up")
	m.line("units = %q", m.unit)
	pieces := 1 + m.IntN(4)
	m.set(pieces)
	m.clothTable()
	m.loomTable()
	m.yarns()
	m.warp()
	m.weft()
	for range pieces {
		m.piece()
	}
	return m.String()
}

func (m *maker) line(format string, of ...any) { fmt.Fprintf(m, format+"\n", of...) }

// one is one of some words, by chance.
func (m *maker) one(of ...string) string { return of[m.IntN(len(of))] }

// maybe writes a line every other time.
func (m *maker) maybe(format string, of ...any) {
	if m.IntN(2) == 0 {
		m.line(format, of...)
	}
}

// length is a length about a number of centimetres, in the brief's units.
func (m *maker) length(cm float64) string {
	if m.unit == "in" {
		return fmt.Sprintf("%.2f in", cm/2.54)
	}
	return fmt.Sprintf("%.1f cm", cm)
}

func (m *maker) density(least, most int) string {
	n := float64(10*least+m.IntN(10*(most-least)+1)) / 10
	if m.unit == "in" {
		return fmt.Sprintf("%.1f/in", n*2.5)
	}
	return fmt.Sprintf("%.1f/cm", n)
}

func (m *maker) set(pieces int) {
	m.line("[set]\npieces = %d", pieces)
	m.line("width = %q\nlength = %q", m.length(20), m.length(float64(12+m.IntN(20))))
	m.line("hem = %q", m.one(m.length(0), m.length(2), m.length(3.3)))
	m.maybe("hem_show = %q", m.one(m.length(0.5), m.length(1)))
	m.line("separator = %d\nspare = %q", m.IntN(5), m.one("0%", "12.5%"))
	m.line("fringe = %q", m.one(m.length(0), m.length(0), m.length(5)))
}

func (m *maker) clothTable() {
	m.line("[cloth]")
	if m.cloth.table == "" {
		m.line("structure = %q", m.cloth.name)
	}
	m.line("sett = %q\nground = %q", m.density(6, 12), m.density(5, 9))
	m.maybe("hem_ground = %q", m.density(7, 12))
	m.line("draw_in = %q\ntake_up = %q", m.one("0%", "4.2%"), m.one("7%", "9.5%"))
	m.line("shrink_width = %q", m.one("5%", "10%"))
	m.line("shrink_length = %q", m.one("0%", "8.25%", "10%"))
	m.line("weft_extra = %q\nstrands = %d", m.one("0%", "7.5%", "10%"), 1+m.IntN(3))
	m.line("floating_selvedge = %s", m.one("true", "false"))
	if m.cloth.closes {
		m.maybe("closing_end = true")
	}
}

func (m *maker) loomTable() {
	treadles, shed := m.one("0", "10", "8"), m.one("rising", "sinking", "both")
	m.line("[loom]\nshafts = %d\ntreadles = %s", m.cloth.shafts+2*m.IntN(2), treadles)
	m.line("shed = %q", shed)
	if treadles != "0" && shed != "both" {
		m.maybe("tie_up = \"direct\"")
	}
	m.line("width = %q\nwaste = %q", m.length(80), m.length(60))
	m.line("sample = %q", m.one(m.length(0), m.length(9), m.length(15), m.length(2)))
	m.maybe("retie = %q", m.length(20))
	m.line("board = %q", m.length(900))
	m.maybe("reed = %q", m.one("50/10cm", "10/in", "4/cm", "12/in"))
	m.maybe("dress = %q", m.one("back to front", "front to back"))
	m.maybe("thread_from = %q", m.one("left", "right"))
	m.maybe("pace = 600")
	m.maybe("bout = %d", 12+m.IntN(60))
}

func (m *maker) yarns() {
	m.line("[yarn.one]\ncount = \"16/2 cotton\"\n[yarn.two]\ntex = 31")
	for i, name := range m.colours {
		m.line("[[colour]]\nname = \"%s\"\nyarn = %q", name, m.one("one", "two"))
		m.line("hex = \"#%02x%02x%02x\"", 20*i+m.IntN(20), m.IntN(256), m.IntN(256))
		m.maybe("on_hand = %q", "300 m")
	}
}

func (m *maker) colour() string { return m.colours[m.IntN(len(m.colours))] }

func (m *maker) block() string {
	i := m.IntN(len(m.cloth.blocks))
	return m.cloth.blocks[i : i+1]
}

func (m *maker) warp() {
	if m.cloth.table != "" {
		m.line("[structure]\nname = %q\n%s", m.cloth.name, m.cloth.table)
	}
	var runs []string
	for i := range 2 + m.IntN(12) {
		block := m.block()
		if m.cloth.widest < 9 { // no float may run on into the next
			block = m.cloth.blocks[i%2 : i%2+1]
		}
		n := 1 + m.IntN(m.cloth.widest)
		runs = append(runs, fmt.Sprintf("\"%s %d %s\"", block, n, m.colour()))
	}
	if m.cloth.closes && m.IntN(2) == 0 { // mirrored on its last stripe, or on its end
		half := slices.Clone(runs[:len(runs)-m.IntN(2)])
		slices.Reverse(half)
		runs = append(runs, half...)
	}
	m.line("[warp]\nruns = [%s]", strings.Join(runs, ", "))
}

func (m *maker) list() string { return fmt.Sprintf("\"%s\", \"%s\"", m.colour(), m.colour()) }

func (m *maker) weft() {
	m.line("[weft]\nground = \"%s\"\ncolours = [%s]", m.colour(), m.list())
	m.maybe("hem = \"%s\"", m.colour())
	m.maybe("separator = \"%s\"", m.colour())
	m.line("rhythm = { kind = \"repeat\", weights = [3, 1, 2], times = %d }", 1+m.IntN(3))
	if m.cloth.orders != nil && m.IntN(3) == 0 {
		m.line("pick_order = %q", m.one(m.cloth.orders...))
	}
}

func (m *maker) piece() {
	m.line("[[piece]]\nname = \"%s\"", m.one(awkward...))
	m.maybe("ground = \"%s\"", m.colour())
	m.maybe("colours = [%s]", m.list())
	if m.cloth.orders != nil && m.IntN(3) == 0 {
		m.line("pick_order = %q", m.one(m.cloth.orders...))
	}
	if m.IntN(3) > 0 {
		return
	}
	var runs []string
	for range 1 + m.IntN(14) {
		if runs != nil && m.IntN(5) == 0 {
			runs = append(runs, fmt.Sprintf("\"plain %d\"", 1+m.IntN(12)))
		} else {
			runs = append(runs, fmt.Sprintf("\"%s %d %s\"", m.block(), 1+m.IntN(25), m.colour()))
		}
	}
	m.line("runs = [%s]", strings.Join(runs, ", "))
}
