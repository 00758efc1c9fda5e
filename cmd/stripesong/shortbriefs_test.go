package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

// TestWaysOutOfShortBriefs makes up briefs that are short of something, has check list the
// ways out, takes some, and looks: what each is for is gone, nothing else is worse, as
// many warnings are left as were said, every comment and the brief as it was are kept. Of
// what is warned of without a way out it is said that there is none.
func TestWaysOutOfShortBriefs(t *testing.T) {
	many := len(shortOf)
	if os.Getenv("STRIPESONG_CI") != "" && !testing.Short() {
		many = 100
	}
	met := map[string]int{}
	for seed := range uint64(many) {
		m := &shortMaker{Rand: rand.New(rand.NewPCG(seed, 15)), what: int(seed)}
		text := m.brief()
		if !t.Run(fmt.Sprintf("%d %s", seed, m.short), func(t *testing.T) {
			if m.is("pieces") {
				tryFit(t, text, m.warp)
				return
			}
			tryWaysOut(t, text, m, met)
		}) {
			t.Log(text)
		}
	}
	for _, code := range []string{"board-short", "yarn-short", "loom-narrow", "heddles", "shafts",
		"treadles", "float-long", "pieces-alike"} {
		assert.Positive(t, met[code], "no brief has this trouble and a way out of it: %s", code)
	}
}

// listed is what check --json says.
type listed struct {
	Stamp    string
	Notes    []plan.Note
	Yarn     []safeYarn
	Remedies []wayOut
	Unmended []struct{ Code, About string }
}

// wayOut is one of its ways out.
type wayOut struct {
	Number, Left     int
	For, About, What string
	Lessens          bool // and does not end it
	Also             []struct{ Code, About string }
}

// troubled counts what is wrong, warnings by their code and short yarns by their colour.
func (l *listed) troubled() map[string]int {
	all := map[string]int{}
	for _, n := range l.Notes {
		if n.Code != "yarn-short" && (n.Level == plan.Warning || n.Code == "pieces-alike" ||
			n.Code == "beat-hard") {
			all[n.Code]++
		}
		if n.Code == "pieces-alike" { // one note names them all
			all[n.Code] += strings.Count(n.Message, `"`)
		}
	}
	for _, y := range l.Yarn {
		if y.OnHandM != nil && *y.OnHandM < y.NeededM {
			all["yarn-short "+y.Colour]++
		}
	}
	return all
}

func (l *listed) warnings() (n int) {
	for _, note := range l.Notes {
		if note.Level == plan.Warning {
			n++
		}
	}
	return n
}

func key(code, about string) string { return strings.TrimSpace(code + " " + about) }

func checkedFile(t *testing.T, file string) *listed {
	t.Helper()
	code, out, mistakes := call("check", file, "--json")
	require.Contains(t, []int{exitGood, exitNo}, code, mistakes)
	l := &listed{}
	require.NoError(t, json.Unmarshal([]byte(out), l))
	return l
}

func tryWaysOut(t *testing.T, text string, m *shortMaker, met map[string]int) {
	file := filepath.Join(t.TempDir(), "short.toml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	was := checkedFile(t, file)
	answered := map[string]bool{}
	for _, r := range was.Remedies {
		answered[key(r.For, r.About)] = true
		for _, also := range r.Also {
			answered[key(also.Code, also.About)] = true
		}
		met[r.For]++
	}
	for _, u := range was.Unmended {
		assert.False(t, answered[key(u.Code, u.About)], "%s has a way out, and has none", u.Code)
		answered[key(u.Code, u.About)] = true
	}
	for trouble := range was.troubled() {
		assert.True(t, answered[trouble] || answered[""], "nothing is said of a way out of %q",
			trouble)
	}
	for _, i := range m.some(len(was.Remedies)) {
		r := was.Remedies[i]
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		code, out, mistakes := call("check", file, "--take", fmt.Sprint(r.Number), "--listed",
			was.Stamp)
		require.Equal(t, map[bool]int{true: exitNo}[r.Left > 0], code, "%s\n%s%s", r.What, out,
			mistakes)
		afterTaking(t, file, text, r, was)
	}
}

// tryFit asks what a warp gives that is too short for a brief: what is taken of the ways
// out goes on that warp, and where none is offered it is said that there is none.
func tryFit(t *testing.T, text, warp string) {
	file := filepath.Join(t.TempDir(), "short.toml")
	for n := 1; n < 3; n++ {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		code, out, mistakes := call("fit", file, "--warp", warp)
		require.Contains(t, []int{exitGood, exitNo}, code, mistakes)
		if code == exitGood {
			return
		}
		_, ways, offered := strings.Cut(out, "ways out")
		assert.True(t, offered || strings.Contains(out, "no way out was found"), out)
		if !strings.Contains(ways, fmt.Sprintf("\n  %d ", n)) {
			return
		}
		code, _, mistakes = call("fit", file, "--warp", warp, "--take", fmt.Sprint(n))
		require.Contains(t, []int{exitGood, exitNo}, code, mistakes)
		require.NoError(t, os.Remove(strings.TrimSuffix(file, ".toml")+"-before.toml"))
		code, out, mistakes = call("fit", file, "--warp", warp)
		assert.Equal(t, exitGood, code, "way %d: %s%s", n, out, mistakes)
		assert.NotContains(t, out, "ways out")
	}
}

func afterTaking(t *testing.T, file, text string, r wayOut, was *listed) {
	t.Helper()
	what, trouble := r.What, key(r.For, r.About)
	before, err := os.ReadFile(strings.TrimSuffix(file, ".toml") + "-before.toml")
	require.NoError(t, err)
	assert.Equal(t, text, string(before))
	require.NoError(t, os.Remove(strings.TrimSuffix(file, ".toml")+"-before.toml"))
	now := checkedFile(t, file)
	counts := now.troubled()
	assert.Equal(t, r.Left, now.warnings(), "%s: %v", what, now.Notes)
	if trouble == "" && len(was.Unmended) == 0 {
		assert.Zero(t, now.warnings(), what)
	}
	if r.Lessens {
		assert.Positive(t, counts[trouble], what)
		assert.Less(t, counts[trouble], was.troubled()[trouble], what)
	} else {
		assert.Zero(t, counts[trouble], "%s is for %q", what, trouble)
	}
	for other, n := range counts {
		worst := was.troubled()[other]
		if other == "pieces-alike" || other == "beat-hard" { // no warnings
			continue
		}
		assert.LessOrEqual(t, n, worst, "%s makes %q worse", what, other)
	}
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	if strings.Contains(what, "without") { // with a piece its comments go
		text, _, _ = strings.Cut(text, "[[piece]]")
	}
	for line := range strings.Lines(text) {
		if _, comment, ok := strings.Cut(line, "# "); ok {
			assert.Contains(t, string(after), strings.TrimSpace(comment), what)
		}
	}
}

// shortMaker makes briefs up by chance, each short of something in turn.
type shortMaker struct {
	*rand.Rand
	strings.Builder
	what  int
	short string // of what it is short
	warp  string // on which fewer pieces go
	unit  string
}

// some are two of n numbers, the first among them.
func (m *shortMaker) some(n int) []int {
	switch n {
	case 0:
		return nil
	case 1:
		return []int{0}
	}
	return []int{0, 1 + m.IntN(n-1)}
}

func (m *shortMaker) line(format string, of ...any) { fmt.Fprintf(m, format+"\n", of...) }

func (m *shortMaker) one(of ...string) string { return of[m.IntN(len(of))] }

// length is about a number of centimetres, in the brief's units.
func (m *shortMaker) length(cm int) string {
	if m.unit == "in" {
		return fmt.Sprintf("%d in", (cm+1)*10/25)
	}
	return fmt.Sprintf("%d cm", cm)
}

func (m *shortMaker) density(perCM int) string {
	if m.unit == "in" {
		return fmt.Sprintf("%d/in", perCM*5/2)
	}
	return fmt.Sprintf("%d/cm", perCM)
}

// shortOf are the ways in which a brief is short, one after the other.
var shortOf = []string{"yarn", "board", "reed", "width", "heddles", "shafts", "treadles",
	"pieces", "beat", "alike", "floats", "board and yarn"}

func (m *shortMaker) is(what string) bool { return strings.Contains(m.short, what) }

// of is one value where the brief is short of something, another where it is not.
func (m *shortMaker) of(what, short, enough string) string {
	if m.is(what) {
		return short
	}
	return enough
}

func (m *shortMaker) brief() string {
	m.short, m.unit = shortOf[m.what%len(shortOf)], m.one("cm", "in")
	structure := m.one("halvdrall", "halvdrall", "summer-and-winter")
	switch {
	case m.is("floats"):
		structure = "monks-belt"
	case m.is("treadles"):
		structure = "summer-and-winter"
	case m.is("shafts"):
		structure = "mine"
	}
	pieces, length := 2+m.IntN(3), 30+m.IntN(15)
	m.line("title = \"short of %s\" # made up", m.short)
	m.line("units = %q\nseed = %d", m.unit, m.IntN(9))
	m.line("[set]\npieces = %d # as many as asked for\nwidth = %q\nlength = %q # before the hems",
		pieces, m.length(24+m.IntN(8)), m.length(length))
	m.line("hem = %q\nseparator = %d\nspare = %q", m.length(2+m.IntN(2)), m.IntN(3),
		m.one("0%", "10%"))
	m.line("[cloth]\nstructure = %q\nsett = %q # from her wraps", structure,
		m.density(8))
	m.line("ground = %q\ndraw_in = \"5%%\"\ntake_up = \"8%%\"\nshrink_width = \"8%%\"\n"+
		"shrink_length = \"8%%\"\nweft_extra = \"10%%\"",
		m.of("beat", m.density(11+m.IntN(3)), m.density(7)))
	m.loom(pieces, length)
	if structure == "mine" {
		m.structure()
	}
	m.yarn()
	m.sequences(pieces, structure)
	return m.String()
}

func (m *shortMaker) loom(pieces, length int) {
	board, short := 1000, pieces*(length+12)+60-m.IntN(30)
	m.warp = m.length(short)
	if m.is("board") {
		board = short
	}
	m.line("[loom]\nwaste = %q # she ties on\nsample = %q\nboard = %q", m.length(60),
		m.length(m.IntN(2)*10), m.length(board))
	m.line("shafts = %s\ntreadles = %s", m.of("shafts", "4", "8"), m.of("treadles", "5", "10"))
	m.line("width = %q", m.of("width", m.length(20+m.IntN(6)), m.length(60)))
	m.line("reed = %q", m.of("reed", m.one("33/10cm", "7/in", "9/in"), m.density(4)))
	if m.is("heddles") {
		m.line("heddles = %d # counted", 150+m.IntN(60))
	}
}

func (m *shortMaker) structure() {
	blocks := []string{"A", "B", "C"}
	extra := m.IntN(2)
	if extra > 0 {
		blocks = append(blocks, "D")
	}
	var units, sheds, tabby []string
	for i, b := range blocks {
		units = append(units, fmt.Sprintf("%s = [1, %d, 2, %[2]d]", b, i+3))
		sheds = append(sheds, fmt.Sprintf("%s = [[1, %d], [2, %[2]d]]", b, i+3))
		tabby = append(tabby, fmt.Sprint(i+3))
	}
	m.line("[structure] # her own\nname = \"mine\"\nshafts = %d\norder = \"P1 a P2 b\"",
		2+len(blocks))
	m.line("units = { %s }\nsheds = { %s }", strings.Join(units, ", "), strings.Join(sheds, ", "))
	m.line("tabby = { a = [1, 2], b = [%s] }", strings.Join(tabby, ", "))
}

func (m *shortMaker) yarn() {
	m.line("[yarn.cotton]\ncount = \"8/2 cotton\"")
	for i, name := range []string{"oat", "plum", "moss", "rust"} {
		hold := fmt.Sprintf("%d m", 60+m.IntN(300))
		if i == 0 {
			hold = fmt.Sprintf("%d m", 700+m.IntN(600))
		}
		m.line("[[colour]]\nname = %q # her dye\nhex = %q\non_hand = %q", name,
			[]string{"#efe6d2", "#4b1f3f", "#24492f", "#7a2f1a"}[i],
			m.of("yarn", hold, "9000 m"))
	}
}

func (m *shortMaker) sequences(pieces int, structure string) {
	times := 2 + m.IntN(2)
	if structure == "monks-belt" { // its floats go over whole blocks, 12 mm at most
		times = 20
	}
	m.line("[warp]\ncolours = [\"oat\"]")
	m.line("rhythm = { kind = \"repeat\", weights = [3, 1], times = %d } # both even", times)
	if structure != "monks-belt" {
		m.aside(structure)
	}
	m.line("[weft]\nground = \"oat\"\ncolours = [\"plum\", \"moss\"]")
	m.line("rhythm = { kind = \"even\", stripes = %d }", 5+m.IntN(5))
	for i := range pieces {
		m.line("[[piece]]\nname = \"%d\" # number %[1]d", i+1)
		if m.is("alike") {
			m.line("colours = [\"moss\"]")
			continue
		}
		if i == 0 && m.IntN(2) == 0 {
			last := "A"
			if structure == "mine" {
				last = "C"
			}
			m.line("runs = [\"A 20 plum\", \"B 14 moss\", \"plain 4\", \"%s 20 rust\"] # by hand",
				last)
			m.line("hold = %s", m.one("true", "false"))
			continue
		}
		m.line("colours = [%q, %q]", m.one("plum", "moss"), "rust")
		m.line("rhythm = { kind = \"random\", stripes = %d, narrowest = 1, widest = 6 }",
			4+m.IntN(5))
	}
}

// aside lays blocks in other ways than stripe by stripe.
func (m *shortMaker) aside(structure string) {
	letters := m.one("ABA", "BAB")
	if structure == "mine" {
		letters = m.one("ABCBA", "CAC")
	}
	switch m.IntN(4) {
	case 0:
		m.line("blocks = { letters = %q, weights = [%s] } # apart", letters,
			strings.Join(strings.Split(strings.Repeat("1", len(letters)), ""), ", "))
	case 1:
		m.line("middle = \"50%% %s oat\" # a border", letters[:1])
	case 2:
		m.line("first = %q # from the left", letters[:1])
	}
}
