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

const overview = `stripesong plans sets of handwoven towels. You write a brief, a text file with your
sizes, yarns, colours and rhythms; it works out stripes and blocks, both faces of the
cloth, the warp and the yarn.`

const begin = `Start with "stripesong plan", which plans the built-in brief. Then write your own with
"stripesong new FILE", change it, and run "stripesong plan FILE".`

var exitMeanings = [3]string{"all is well", "the answer is no (check, fit, midway)", failure}

// failure is what exit code 2 means to most commands.
const failure = "a mistake, nothing written"

func printOverview(w io.Writer) error {
	var b strings.Builder
	b.WriteString(paragraphs(overview) + "\n\nCommands:\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-11s %s\n", c.name, hanging(c.line, 14))
	}
	b.WriteString("\n" + paragraphs(begin) + "\n")
	writeExits(&b, exitMeanings)
	_, err := io.WriteString(w, b.String())
	return err
}

// printHelp prints what a screen holds about a command: what it does, its own flags and
// an example. Flags that it shares with others stand in a topic.
func (c *command) printHelp(w io.Writer) error {
	f := newFlags()
	c.prepare(f)
	var b strings.Builder
	fmt.Fprintf(&b, "Usage: %s\n\n%s\n\n", c.usage(), paragraphs(c.about))
	f.write(&b)
	for _, name := range f.topics() {
		fmt.Fprintf(&b, "  and flags %s: see \"stripesong help %s\"\n\n",
			findTopic(name).what, name)
	}
	b.WriteString(c.example.String())
	writeExits(&b, c.exits)
	_, err := io.WriteString(w, b.String())
	return err
}

// String is the example with what it does, on one line where both have room.
func (e example) String() string {
	between := "  # "
	if len("Example: "+e.line+between+e.what) > helpWidth {
		between = "\n         # "
	}
	return "Example: " + e.line + between + e.what + "\n"
}

// paragraphs wraps text to the width of help; lines that begin with blanks are lists,
// and stay.
func paragraphs(text string) string {
	var lines []string
	running := ""
	flush := func() {
		if running != "" {
			lines = append(lines, screen.Wrap(running, helpWidth)...)
		}
		running = ""
	}
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		if line == "" || strings.HasPrefix(line, " ") {
			flush()
			lines = append(lines, line)
			continue
		}
		running += " " + line
	}
	flush()
	return strings.Join(lines, "\n")
}

// hanging wraps text that begins so far in, its further lines beneath.
func hanging(text string, indent int) string {
	return strings.Join(screen.Wrap(text, helpWidth-indent), "\n"+strings.Repeat(" ", indent))
}

func writeExits(b *strings.Builder, meanings [3]string) {
	var words []string
	for code, meaning := range meanings {
		if meaning != "" {
			words = append(words, fmt.Sprintf("%d %s", code, meaning))
		}
	}
	lines := screen.Wrap("Exit codes: "+strings.Join(words, "; "), helpWidth)
	b.WriteString(strings.Join(lines, "\n            ") + "\n")
}

// builtFrom is the revision a release is built from, which its build says: releases are
// the same bytes wherever they are built, and so know nothing of a repository.
var builtFrom string

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
	if builtFrom != "" {
		set["vcs.revision"], set["vcs.modified"] = builtFrom, ""
	}
	if revision := set["vcs.revision"]; len(revision) >= 12 {
		line += " " + revision[:12]
		if set["vcs.modified"] == "true" {
			line += " with changes"
		}
	}
	return fmt.Sprintf("%s (%s, %s/%s)", line, info.GoVersion, set["GOOS"], set["GOARCH"])
}
