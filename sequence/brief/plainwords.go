package brief

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// generalHint is what to do about a text that is not TOML where nothing better is
// known.
const generalHint = "texts stand in quotes, lists in [ ], tables in { } or under a [heading]"

// inPlainWords is what is wrong with a text that is not TOML, and what to do. Windows
// PowerShell writes UTF-16 with >, which begins with one of two marks.
func inPlainWords(wrong *tomltext.Error, text []byte) (what, hint string) {
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("\xfe\xff")):
		return wrong.What, "it is UTF-16, as PowerShell writes with >: " +
			"open it in an editor and save it with the encoding UTF-8"
	case wrong.What == tomltext.NotUTF8:
		return wrong.What, "save the file with the encoding UTF-8"
	case wrong.What == tomltext.Crowded:
		return wrong.What, "a brief is a few pages of text: is this the right file?"
	case wrong.Line == 0:
		return wrong.What, "see the commented brief that \"stripesong new\" writes"
	}
	for _, of := range []func(*tomltext.Error) (string, string){curly, notYes, unquoted, twice} {
		if what, hint = of(wrong); what != "" {
			return what, hint
		}
	}
	for _, one := range plainWords {
		if strings.Contains(wrong.What, one.parser) {
			return one.what, one.hint
		}
	}
	return wrong.What, generalHint
}

// plainWords are ours for those of the parser, of which parser is a part.
var plainWords = []struct{ parser, what, hint string }{
	{"at start of value", "there is no value here that could be read",
		"texts stand in quotes, as in \"46 cm\"; numbers, true and false without"},
	{"expected value", "there is no value here that could be read",
		"texts stand in quotes, as in \"46 cm\"; numbers, true and false without"},
	{"expected newline", "the line goes on where its value ends",
		"write one key on a line; a text that holds quotation marks stands in single ones"},
	{"after array value", "a comma is missing in the list, or the ] at its end",
		"write a comma between the items, as in [\"oat\", \"barley\"]"},
	{"after inline table", "a comma is missing between two keys, or the } at the end",
		"write a comma between the keys, as in { kind = \"even\", stripes = 5 }"},
	{"array is incomplete", "the ] at the end of the list is missing",
		"write a list as in [\"oat\", \"barley\"]"},
	{"inline table is incomplete", "the } at the end is missing",
		"write it as in { kind = \"even\", stripes = 5 }"},
	{"expected '=' after key", "there is no = between key and value",
		"write a line as in hem = \"4 cm\"; the name of a key has no blanks in it"},
	{"to close table name", "the ] at the end of the heading is missing",
		"write a heading as in [set]"},
	{"to close array table name", "the ]] at the end of the heading is missing",
		"write it as in [[piece]]"},
	{"strings cannot have new lines", "the quotation mark at the end of the text is missing",
		"write a text as in \"46 cm\", on one line"},
	{"unterminated", "the quotation mark at the end of the text is missing",
		"write a text as in \"46 cm\", on one line"},
	{"invalid escape character", "a backslash in a text says that something special follows",
		"write / for a stroke, and two backslashes for one"},
	{"is already defined", "stands here a second time", "keep one of the two"},
}

// curly tells of quotation marks as word processors put them.
func curly(wrong *tomltext.Error) (what, hint string) {
	if !strings.ContainsAny(wrong.Text, "“”„‘’«»") || !strings.Contains(wrong.What, "value") {
		return "", ""
	}
	return "the quotation marks are not straight ones",
		"write straight ones, as in \"46 cm\": a plain text editor types them"
}

// bare is a line that gives a key a quantity or a word without quotes.
var bare = regexp.MustCompile(
	`^\s*([\w.-]+)\s*=\s*([0-9][0-9./ ]*[A-Za-z%/][^#"'\[{]*|[A-Za-z#][^"'\[{]*?)\s*(#.*)?$`)

// unquoted tells of such a line, and how it should be: width = "20 in".
func unquoted(wrong *tomltext.Error) (what, hint string) {
	m := bare.FindStringSubmatch(wrong.Text)
	if m == nil || m[2] == "true" || m[2] == "false" {
		return "", ""
	}
	return "a text is not in quotes",
		fmt.Sprintf("put it in quotes: %s = %s", m[1], tomltext.Quote(strings.TrimSpace(m[2])))
}

// notYes tells of a yes or no in words that TOML does not have.
func notYes(wrong *tomltext.Error) (what, hint string) {
	m := bare.FindStringSubmatch(wrong.Text)
	if m == nil {
		return "", ""
	}
	word := "true"
	switch strings.ToLower(m[2]) {
	case "no", "off", "false":
		word = "false"
	case "yes", "on", "true":
	default:
		return "", ""
	}
	if m[2] == word {
		return "", ""
	}
	return fmt.Sprintf("%q is neither true nor false", m[2]),
		fmt.Sprintf("write %s = %s", m[1], word)
}

// listed are the headings of which there are many, each in two pairs of brackets.
var listed = []string{"piece", "colour"}

// already is what the parser says of a heading that stands twice, or once in one pair
// of brackets and once in two.
var already = regexp.MustCompile(`^(?:table|key) ([\w.-]+) already exists`)

// whereOf is where it is wrong: where one of many headings stands in one pair of
// brackets, the parser stumbles only over the next.
func whereOf(wrong *tomltext.Error, text []byte) tomltext.Place {
	m := already.FindStringSubmatch(wrong.What)
	if m == nil || !slices.Contains(listed, m[1]) {
		return wrong.Place
	}
	at := wrong.Place
	for i, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), "["+m[1]+"]") {
			at.Line, at.Col = i+1, strings.Index(line, m[1])+1
			at.Text = strings.TrimRight(line, "\r")
			return at
		}
	}
	return at
}

func twice(wrong *tomltext.Error) (what, hint string) {
	m := already.FindStringSubmatch(wrong.What)
	switch {
	case m == nil:
		return "", ""
	case slices.Contains(listed, m[1]):
		return fmt.Sprintf("one of the %ss stands under [%s], in one pair of brackets", m[1], m[1]),
			fmt.Sprintf("write [[%s]], in two pairs of brackets, above each of them", m[1])
	}
	return fmt.Sprintf("[%s] stands here a second time", m[1]), "put its keys under one heading"
}
