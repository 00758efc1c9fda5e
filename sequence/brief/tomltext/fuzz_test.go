package tomltext

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// texts are those of the examples and some short ones, each as it is, with CRLF
// and with a byte order mark.
func texts(f *testing.F) [][]byte {
	names, err := filepath.Glob("../../../examples/*/brief.toml")
	require.NoError(f, err)
	require.NotEmpty(f, names)
	all := [][]byte{{}, []byte(sample), []byte(pieces), []byte("[set]\npieces = 6"),
		[]byte("a = {}\n"), []byte("a = {\n  b = 1, # one\n  c.d = 2 # two\n}\n")}
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		all = append(all, text)
	}
	for _, text := range all {
		all = append(all, bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")),
			append([]byte("\ufeff"), text...))
	}
	return all
}

// FuzzSet sets one key to one value in any text, or drops it. What is set reads
// back, all other bytes and values stay, setting it again changes nothing, and
// dropping what was set anew gives the text from before.
func FuzzSet(f *testing.F) {
	for i, text := range texts(f) {
		for j, path := range []string{"set.pieces", "title", "warp.rhythm", "warp.rhythm.mirror",
			"piece[1].runs", "piece[9].name", "loom.waste", "new.table.key", "a.b", "a.c"} {
			f.Add(text, path, []string{"7", `{ kind = "even" }`, ""}[(i+j)%3])
		}
	}
	for _, one := range slices.Concat(setTo7, dropped) {
		f.Add([]byte(one.text), one.path, `{ kind = "even" }`)
		f.Add([]byte(one.text), one.path, "")
	}
	f.Fuzz(func(t *testing.T, text []byte, path, value string) {
		before, err := Parse("b.toml", text)
		if err != nil {
			return
		}
		after, err := before.Set(path, value)
		if err != nil {
			return
		}
		was, is := before.Root.Find(path), after.Root.Find(path)
		keepsBytes(t, before, after, was, value)
		if value == "" && strings.HasSuffix(path, "]") {
			return // the numbers of those after it are others now
		}
		old, now := values(before.Root, ""), values(after.Root, "")
		forget(old, was, "."+path)
		forget(now, is, "."+path)
		require.Equal(t, old, now, "other values of %q", after.Bytes())
		if value == "" {
			require.Nil(t, is)
			return
		}
		given, err := ParseValue("", strings.TrimSpace(value))
		require.NoError(t, err)
		require.Equal(t, values(given, ""), values(is, ""))
		again, err := after.Set(path, value)
		require.NoError(t, err)
		require.Equal(t, string(after.Bytes()), string(again.Bytes()), "the second time")
		if made, known := firstNew(before, path); made != "" && known.form != implied {
			dropped, err := after.Drop(made)
			require.NoError(t, err)
			require.Equal(t, string(text), string(dropped.Bytes()), "%s dropped", made)
		}
	})
}

// firstNew is the first part of a path that leads nowhere, "" where the whole
// path is known, and the last that does not.
func firstNew(d *Document, path string) (made string, known *Node) {
	known = d.Root
	keys := strings.Split(path, ".")
	for i := range keys {
		part := strings.Join(keys[:i+1], ".")
		n := d.Root.Find(part)
		if n == nil {
			return part, known
		}
		known = n
	}
	return "", known
}

// keepsBytes: a text is the one before but for a stretch that is no longer than
// the value that was there. Where lines go, the others stay in their order, but
// for blank lines, and for comments that go with a table. All other comments stay.
func keepsBytes(t *testing.T, before, after *Document, was *Node, value string) {
	t.Helper()
	if was == nil || value != "" || was.assigned() {
		require.Empty(t, without(commentsIn(before.text), commentsIn(after.text)),
			"comments are lost")
	}
	lost := len(before.text) - alike(before.text, after.text)
	switch {
	case was == nil:
		require.Zero(t, lost, "a new key takes nothing away")
	case value != "" && was.assigned() && len(commentsInValue([]byte(was.Raw()))) == 0:
		require.LessOrEqual(t, lost, was.Value.To-was.Value.From)
	case was.inline() == nil:
		rest := slices.Collect(strings.Lines(string(after.text)))
		for _, line := range otherLines(before, was) {
			i := indexOf(rest, line)
			require.GreaterOrEqual(t, i, 0, "%q is lost", line)
			rest = rest[i+1:]
		}
	}
}

// alike counts the bytes that two texts begin and end with alike.
func alike(a, b []byte) int {
	start, end := 0, 0
	for start < min(len(a), len(b)) && a[start] == b[start] {
		start++
	}
	for end < min(len(a), len(b))-start && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	return start + end
}

// otherLines are the headings and assignments outside a value, without line ends.
func otherLines(d *Document, n *Node) (all []string) {
	for _, e := range d.entries {
		if !e.node.within(n) {
			s := d.lines(e.at)
			all = slices.AppendSeq(all, strings.Lines(string(d.text[s.From:s.To])))
		}
	}
	return all
}

func indexOf(lines []string, line string) int {
	for i, l := range lines {
		if strings.TrimRight(l, "\r\n") == strings.TrimRight(line, "\r\n") {
			return i
		}
	}
	return -1
}

// values are all single values of a tree by their paths.
func values(n *Node, path string) map[string]string {
	all := map[string]string{}
	add := func(part string, child *Node) {
		for k, v := range values(child, path+part) {
			all[k] = v
		}
	}
	for key, child := range n.Table {
		add("."+key, child)
	}
	for i, item := range n.Items {
		add(fmt.Sprintf("[%d]", i), item)
	}
	if n.Kind != Table && n.Kind != Array {
		all[path] = fmt.Sprint(n.Kind, " ", n.Text)
	}
	return all
}

// forget drops what a value holds.
func forget(all map[string]string, n *Node, path string) {
	if n == nil {
		return
	}
	for p := range values(n, path) {
		delete(all, p)
	}
}

// TestForget: the fuzz target would notice another value changed.
func TestForget(t *testing.T) {
	d := parse(t, "x = 1\n[[p]]\ny = [1, 2]\n")
	all := values(d.Root, "")
	assert.Equal(t, map[string]string{".x": "a whole number 1",
		".p[0].y[0]": "a whole number 1", ".p[0].y[1]": "a whole number 2"}, all)
	forget(all, d.Root.Find("p[0].y"), ".p[0].y")
	assert.Equal(t, map[string]string{".x": "a whole number 1"}, all)
}

// mixed tells whether the lines of a text end in both ways and the last in none,
// which then gets the end that the first has.
func mixed(text []byte) bool {
	ends, crlf := bytes.Count(text, []byte("\n")), bytes.Count(text, []byte("\r\n"))
	return crlf > 0 && crlf < ends && !bytes.HasSuffix(text, []byte("\n"))
}

// FuzzArrange brings the last of a list of tables to the front and back again,
// which gives the text from before.
func FuzzArrange(f *testing.F) {
	for _, text := range texts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		before, err := Parse("b.toml", text)
		if err != nil || before.Root.Find("piece[1]") == nil || mixed(text) {
			return
		}
		var forth, back []int
		n := len(before.Root.Find("piece").Items)
		for i := range n {
			forth, back = append(forth, (i+n-1)%n), append(back, (i+1)%n)
		}
		turned, err := before.Arrange("piece", forth)
		if err != nil {
			return
		}
		first, last := turned.Root.Find("piece[0]"), before.Root.Find(fmt.Sprintf("piece[%d]", n-1))
		require.Equal(t, values(last, ""), values(first, ""))
		again, err := turned.Arrange("piece", back)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again.Bytes()))
	})
}
