package main

import (
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// The forms a flag's text takes in TOML. Each refuses what is not of its kind,
// so that nothing typed can become another key.

func asText(s string) (string, error) { return tomltext.Quote(s), anyText(s) }

func asWhole(s string) (string, error) { return s, wholeNumber(s) }

func asNumber(s string) (string, error) { return s, plainNumber(s) }

func asYes(s string) (string, error) { return s, new(yes).Set(s) }

func asTexts(s string) (string, error) { return list(s, asText) }

func asNumbers(s string) (string, error) { return list(s, asNumber) }

// list reads values set apart by commas; spaces around them do not count.
func list(s string, form func(string) (string, error)) (string, error) {
	var parts []string
	for part := range strings.SplitSeq(s, ",") {
		toml, err := form(strings.TrimSpace(part))
		if err != nil {
			return "", err
		}
		parts = append(parts, toml)
	}
	return "[" + strings.Join(parts, ", ") + "]", nil
}
