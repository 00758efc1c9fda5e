package main

import (
	"fmt"
	"io"
	"strings"
)

// topic is what several commands have in common, or what their answers mean.
type topic struct {
	name, line string
	about      string
	what       string       // what its flags do, as help goes on; "" for none
	declare    func(*flags) // these
	example    example
}

var topics = []topic{
	{name: "rhythms", line: "flags that change a brief for one run (plan, check, contrast)",
		about: `These flags change the brief for one run of plan, check or contrast and leave the
file as it is. To change it for good, use the keys of the same names in the brief.`,
		what:    "that change the brief for one run",
		declare: func(f *flags) { new(overrides).declare(f) },
		example: example{"stripesong plan towels.toml --warp-rhythm fibonacci --terms 5 --mirror",
			"another rhythm for the warp"}},
	{name: "trials", line: "flags that narrow down what is tried (try)",
		about: `These flags narrow down what "stripesong try" draws. The boldest rhythms differ most
from one stripe to the next; the calmest have the least change in all, from edge to
edge. Ask for both and you get a few stripes that stand out. The numbers on a sheet
hold for its flags only: give --keep the same ones.`,
		what:    "that narrow down what is tried",
		declare: func(f *flags) { new(steers).declare(f) },
		example: example{"stripesong try towels.toml --kinds graded,fibonacci --bold 25%",
			"the boldest quarter"}},
	{name: "files", line: "what is written, replaced and kept",
		about: `plan writes a folder named after the title, or --out DIR:
  plan.svg                     the whole set on a sheet
  packet.html                  sheets for the loom, from shopping to pressing,
                               to print or to open on a tablet
  piece-01.svg ...             a sheet for each piece
  piece-01-face.png, -back     the finished piece as it looks
  piece-01-face-threads.png,   a dot for every crossing of two threads, hems
  -back-threads                unfolded, for other programs
  yarn.csv                     the yarn, for a spreadsheet: metres and grams, or
                               yards and ounces where the brief is in inches
  plan.json                    every number, for other programs

The folder appears whole or not at all. It replaces an earlier plan only if nothing
in that was changed or added since (.stripesong-files is the list); otherwise it
stops and says which file it was. A file that you save there in the meantime is kept,
and named.

A command that changes your brief keeps it as it was in a file beside it
(towels-before.toml). try, contrast and palette draw only to a new file, or over a
drawing of their own that nobody has edited.`},
	{name: "grades", line: "what the words and numbers of contrast and difference mean",
		about: `How plainly a pattern shows has six grades: unseen, faint, soft, clear, strong, bold.
They go by the difference in lightness (L*) that is left at a distance. What is less
than clear shows too little. Use them to compare combinations; they do not replace a
sample that is wrapped, woven and washed.

"clear to strong" is a range. Until you have measured a sample ("stripesong
calibrate"), nobody knows how wide your yarn lies once washed or how far light
spreads in it.

Each combination is graded for the eyes that see it least: ordinary, red-blind
(protan) or green-blind (deutan).

dE00 (CIEDE2000) is the whole difference between two colours, hue included; 1 can
just be seen side by side. "differs" is how far a piece is from the one most like it:
the mean dE00, one face laid over the other.`},
}

func topicNames() (names []string) {
	for _, t := range topics {
		names = append(names, t.name)
	}
	return names
}

func findTopic(name string) *topic {
	for i := range topics {
		if topics[i].name == name {
			return &topics[i]
		}
	}
	return nil
}

func (t *topic) print(w io.Writer) error {
	var b strings.Builder
	b.WriteString(paragraphs(t.about) + "\n")
	if t.declare != nil {
		f := newFlags()
		t.declare(f)
		b.WriteString("\n")
		f.writeTopic(&b, t.name)
		b.WriteString(t.example.String())
	}
	_, err := io.WriteString(w, b.String())
	return err
}

var helpCommand = &command{
	name:    "help",
	operand: "COMMAND",
	line:    "explain a command, or a topic: rhythms, trials, files, grades",
	example: example{"stripesong help plan", "the same as: stripesong plan --help"},
	exits:   [3]string{"the help was printed", "", "there is no such command or topic"},
}

// The table of commands holds help, which reads the table: the knot is tied here.
func init() {
	about := "Explains a command, as --help after it does. Without one it lists all commands.\n" +
		"There are also these topics:\n"
	for _, t := range topics {
		about += fmt.Sprintf("  %-9s  %s\n", t.name, t.line)
	}
	about += "  man        everything, as a manual page for man(1)\n"
	helpCommand.about = about
	helpCommand.words = append(topicNames(), "man")
	helpCommand.prepare = func(*flags) work { return helpOn }
	for _, c := range commands() {
		helpCommand.words = append(helpCommand.words, c.name)
	}
}

func helpOn(w *world, name string) error {
	switch name {
	case "":
		return printOverview(w.out)
	case "man":
		return printMan(w.out)
	}
	if t := findTopic(name); t != nil {
		return t.print(w.out)
	}
	c := find(name)
	if c == nil {
		return unknownCommand(name)
	}
	return c.printHelp(w.out)
}
