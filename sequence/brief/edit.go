package brief

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// read parses a text of no more than is worked on. The error, if any, is of type
// [Problems].
func read(name string, text []byte) (*tomltext.Document, error) {
	if err := checkSize(name, text); err != nil {
		return nil, err
	}
	doc, err := tomltext.Parse(name, text)
	var wrong *tomltext.Error
	if errors.As(err, &wrong) {
		if quoted := quotedLine(wrong.Text); quoted != "" {
			return nil, Problems{problem(wrong.Place, wrong.Key, "a text is not in quotes", "write "+quoted)}
		}
		return nil, Problems{problem(wrong.Place, wrong.Key, wrong.What, howToMend(wrong, text))}
	}
	return doc, nil
}

// unquoted is a line that gives a key a quantity or a word without quotes.
var unquoted = regexp.MustCompile(`^\s*([\w.-]+)\s*=\s*([0-9][0-9./ ]*[A-Za-z%/][^#"'\[{]*|[A-Za-z#][^"'\[{]*?)\s*(#.*)?$`)

// quotedLine is such a line as it should be: "width = \"20 in\""; "" for others.
func quotedLine(line string) string {
	m := unquoted.FindStringSubmatch(line)
	if m == nil || m[2] == "true" || m[2] == "false" {
		return ""
	}
	return fmt.Sprintf("%s = %s", m[1], tomltext.Quote(strings.TrimSpace(m[2])))
}

// howToMend is the hint about a text that is not TOML. Windows PowerShell writes
// UTF-16 with >, which begins with one of two marks.
func howToMend(wrong *tomltext.Error, text []byte) string {
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("\xfe\xff")):
		return "it is UTF-16, as PowerShell writes with >: " +
			"open it in an editor and save it with the encoding UTF-8"
	case wrong.What == tomltext.NotUTF8:
		return "save the file with the encoding UTF-8"
	case wrong.What == tomltext.Crowded:
		return "a brief is a few pages of text: is this the right file?"
	case wrong.Line == 0:
		return "see the commented brief that \"stripesong new\" writes"
	}
	return "texts stand in quotes, lists in [ ], tables in { } or under a [heading]"
}

// Change is one value to set in a brief's text.
type Change struct {
	Key   string `json:"key"`   // a path of package tomltext: "set.width", "piece[2].runs"
	Value string `json:"value"` // as TOML would have it; "" takes the key away
}

// Text is a change that gives a key a text.
func Text(key, value string) Change { return Change{Key: key, Value: tomltext.Quote(value)} }

// Edit sets values in a brief, one after the other, and leaves every other byte
// as it is: see [tomltext.Document.Set].
func Edit(name string, text []byte, changes []Change) ([]byte, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		if doc, err = doc.Set(c.Key, c.Value); err != nil {
			return nil, err
		}
	}
	text = doc.Bytes()
	return text, checkSize(name, text)
}

// Shorten takes the [[piece]] tables from number n, counted from 0, out of a
// brief's text, with the comment lines that stand right above their headings.
func Shorten(name string, text []byte, n int) ([]byte, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	for doc.Root.Find(fmt.Sprintf("piece[%d]", n)) != nil {
		pieces := doc.Root.Table["piece"].Items
		if doc, err = doc.Drop(fmt.Sprintf("piece[%d]", len(pieces)-1)); err != nil {
			return nil, err
		}
	}
	return doc.Bytes(), nil
}
