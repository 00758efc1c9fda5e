package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/folder"
	"stripesong/sequence/brief/tomltext"
)

// hostile are texts that would be something else than text where they are not
// taken for text.
var hostile = []string{`</text><script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`,
	`=HYPERLINK("http://x","y")`, `@SUM(1+1)|cmd`, `../../../etc/passwd`,
	`C:\con`, "\x1b[31mred\x1b]0;title\x07", "a\x00b", "tab\there", "line\nend\r\n",
	"\u202etxt.exe", "\u2066a\u2069", "\u0085\u2028x", "]]>&amp;&#0;<!--", "{{.}}${x}`id`$(id)",
	"%s%n%d", strings.Repeat("w", 3000), "\ufeff\ufffe", "'; DROP TABLE", "−1", "-1"}

// hostileBrief is the small brief with one of them in every place of a name.
func hostileBrief(t *testing.T, text string) string {
	t.Helper()
	brief := string(read(t, "testdata/small.toml"))
	for old, new := range map[string]string{
		`"Two for the test"`: tomltext.Quote(text),
		`name = "first"`:     "name = " + tomltext.Quote(text),
		`[yarn.cotton]`:      "[yarn." + tomltext.Quote(text) + "]",
		`"oat"`:              tomltext.Quote("oat " + text), `"damson"`: tomltext.Quote(text),
		`damson"`: strings.TrimPrefix(tomltext.Quote(text), `"`),
	} {
		brief = strings.ReplaceAll(brief, old, new)
	}
	return brief
}

// TestTextIsText plans briefs whose every name is hostile, and reads all that
// comes of it as strictly as can be.
func TestTextIsText(t *testing.T) {
	planned := 0
	for i, text := range hostile {
		dir := t.TempDir()
		name := filepath.Join(dir, "b.toml")
		require.NoError(t, os.WriteFile(name, []byte(hostileBrief(t, text)), 0o644))
		code, out, mistakes := call("plan", name, "--out", filepath.Join(dir, "o"))
		visible(t, out+mistakes)
		if code != exitGood { // a colour's name may not end or begin in blanks, and so on
			assert.Contains(t, mistakes, "error: ", "%d", i)
			continue
		}
		planned++
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Len(t, entries, 2, "names name no files")
		files, err := os.ReadDir(filepath.Join(dir, "o"))
		require.NoError(t, err)
		for _, f := range files {
			require.Regexp(t, ourNames, f.Name())
			strict(t, filepath.Join(dir, "o", f.Name()))
		}
	}
	assert.Greater(t, planned, len(hostile)*2/3)
}

// ourNames are the files of a plan's folder.
const ourNames = `^(plan\.(json|svg)|yarn\.csv|packet\.html|piece-\d\d(\.svg|-(face|back)(-threads)?\.png)|\.stripesong-files)$`

// visible checks that nothing steers a terminal.
func visible(t *testing.T, s string) {
	t.Helper()
	for _, r := range s {
		bad := r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r == 0x200e || r == 0x200f ||
			r == 0x61c || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x2028 ||
			r == 0x2029
		require.False(t, bad, "%U in %q", r, s)
	}
}

func strict(t *testing.T, name string) {
	t.Helper()
	text := read(t, name)
	switch filepath.Ext(name) {
	case ".svg":
		strictXML(t, name, text)
	case ".csv":
		rows := rfc4180(t, string(text))
		for _, row := range rows {
			require.Len(t, row, len(folder.YarnHeader), "%q", row)
			for _, cell := range row[:2] {
				require.NotRegexp(t, `^[=+@\t\r-]`, cell)
				visible(t, cell)
			}
		}
	case ".html":
		require.NotContains(t, string(text), "<script>alert")
		require.NotContains(t, string(text), "<img")
	}
}

// strictXML reads a drawing with a parser that, unlike browsers, forgives
// nothing; Go's forgives an attribute given twice, so that is looked at too.
// xmllint gives a second opinion where it is.
func strictXML(t *testing.T, name string, text []byte) {
	t.Helper()
	decode := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := decode.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err, name)
		if start, ok := token.(xml.StartElement); ok {
			require.NotContains(t, []string{"script", "img", "a", "foreignObject", "style"},
				start.Name.Local, name)
			seen := make(map[xml.Name]bool)
			for _, a := range start.Attr {
				require.False(t, seen[a.Name], "%s: %v twice", name, a.Name)
				require.False(t, strings.HasPrefix(a.Name.Local, "on"), name)
				seen[a.Name] = true
			}
		}
	}
	if lint, err := exec.LookPath("xmllint"); err == nil {
		out, err := exec.Command(lint, "--noout", "--nonet", name).CombinedOutput()
		require.NoError(t, err, "%s", out)
	} else if os.Getenv("STRIPESONG_CI") != "" {
		t.Fatal("xmllint is missing")
	}
}

// rfc4180 is a reader of its own, written from the grammar of RFC 4180 and
// strict about it: CRLF after every record, quotes only where they belong.
func rfc4180(t *testing.T, text string) (rows [][]string) {
	t.Helper()
	for text != "" {
		var row []string
		for more := true; more; {
			var cell string
			if rest, ok := strings.CutPrefix(text, `"`); ok {
				for {
					part, after, found := strings.Cut(rest, `"`)
					require.True(t, found, "a quote is not closed")
					cell += part
					if rest = after; !strings.HasPrefix(rest, `"`) {
						break
					}
					cell, rest = cell+`"`, rest[1:]
				}
				text = rest
			} else {
				end := strings.IndexAny(text, ",\r\n\"")
				require.GreaterOrEqual(t, end, 0, "the last record has no end")
				cell, text = text[:end], text[end:]
			}
			row = append(row, cell)
			text, more = strings.CutPrefix(text, ",")
		}
		after, ok := strings.CutPrefix(text, "\r\n")
		require.True(t, ok, "a record ends in CRLF: %.20q", text)
		rows, text = append(rows, row), after
	}
	return rows
}
