package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"stripesong/cmd/stripesong/screen"
)

// helpWidth is the width help is wrapped to, terminal or not.
const helpWidth = 80

const overview = `stripesong plans sets of handwoven towels: a palette and a few rhythm rules become
warp stripes and weft blocks in whole threading units, both faces of the cloth,
the yarn by colour and the length of warp.

`

var exitMeanings = [3]string{"all is well", "the answer is no (check, fit, midway)", "a mistake in the brief or on the command line, or something failed; nothing was written"}

func printOverview(w io.Writer) error {
	var b strings.Builder
	b.WriteString(overview + "Commands:\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-11s %s\n", c.name, hanging(c.line, 14))
	}
	fmt.Fprintf(&b, "  %-11s %s\n\n", "help", "the same as --help after a command")
	b.WriteString("Flags:\n  --help      this text, or after a command all about it\n  --version   what was built, and from what\n\n")
	writeExamples(&b, []example{
		{"stripesong plan", "a first set, from the brief that comes with the program"},
		{"stripesong new towels.toml", "a commented brief to change"},
		{"stripesong plan towels.toml", "its plan, drawings and yarn list, in a folder of their own"},
	})
	writeExits(&b, exitMeanings)
	_, err := io.WriteString(w, b.String())
	return err
}

// printHelp prints all about a command.
func (c *command) printHelp(w io.Writer) error {
	f := newFlags()
	c.prepare(f)
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\nUsage: %s\n\n%s\n\n", hanging("stripesong "+c.name+": "+c.line, 0), c.usage(), strings.TrimSpace(c.about))
	f.write(&b)
	writeExamples(&b, c.examples)
	writeExits(&b, c.exits)
	_, err := io.WriteString(w, b.String())
	return err
}

func writeExamples(b *strings.Builder, all []example) {
	b.WriteString("Examples:\n")
	for _, e := range all {
		fmt.Fprintf(b, "  %s\n      %s\n", e.line, e.what)
	}
	b.WriteString("\n")
}

// hanging wraps text that begins so far in, its further lines beneath.
func hanging(text string, indent int) string {
	return strings.Join(screen.Wrap(text, helpWidth-indent), "\n"+strings.Repeat(" ", indent))
}

func writeExits(b *strings.Builder, meanings [3]string) {
	b.WriteString("Exit codes:\n")
	for code, meaning := range meanings {
		if meaning != "" {
			fmt.Fprintf(b, "  %d  %s\n", code, hanging(meaning, 5))
		}
	}
}

// printVersion prints what the build knows of itself.
func printVersion(w io.Writer) error {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		_, err := fmt.Fprintln(w, "stripesong (unknown version)")
		return err
	}
	_, err := fmt.Fprintln(w, versionLine(info))
	return err
}

func versionLine(info *debug.BuildInfo) string {
	set := make(map[string]string, len(info.Settings))
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	line := "stripesong " + info.Main.Version
	if info.Main.Version == "" {
		line = "stripesong (devel)"
	}
	if revision := set["vcs.revision"]; len(revision) >= 12 {
		line += " " + revision[:12]
		if set["vcs.modified"] == "true" {
			line += " with changes"
		}
	}
	return fmt.Sprintf("%s (%s, %s/%s)", line, info.GoVersion, set["GOOS"], set["GOARCH"])
}
