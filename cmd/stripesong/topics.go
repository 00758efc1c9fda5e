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
	{name: "rhythms", line: "the flags that change a brief for one run (plan, check, contrast)",
		about: `These flags change the brief for one run of plan, check or contrast, and leave the
file as it is. A brief says the same by keys of these names.`,
		what:    "to change the brief for one run",
		declare: func(f *flags) { new(overrides).declare(f) },
		example: example{"stripesong plan towels.toml --warp-rhythm fibonacci --terms 5 --mirror",
			"another rhythm in the warp"}},
	{name: "trials", line: "the flags that narrow down what is tried (try)",
		about: `These flags narrow down what "stripesong try" draws. Bold is what differs most from
stripe to stripe, calm what changes least from edge to edge; both together are few
stripes that stand out. Other flags, other numbers: give --keep those of the sheet.`,
		what:    "to narrow down what is tried",
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

The folder appears whole or not at all. It takes the place of an earlier plan if all
in that is as the program wrote it, which it knows by .stripesong-files; where you
have changed or added a file it stops and says so. A file that you save into it
meanwhile is kept, and named.

A command that changes your brief keeps it as it was in a file beside it
(towels-before.toml). try, contrast and palette write a drawing only to a new file,
or over one of their own that was not edited.`},
	{name: "grades", line: "what the words and numbers of contrast and difference mean",
		about: `How plainly a pattern shows is told in words, by the difference in lightness (L*)
that is left at a distance: unseen, faint, soft, clear, strong, bold. What is less
than clear shows too little. They say which of two combinations shows more; they are
no match for a wrapped and washed sample.

"clear to strong" is a range: until a sample was measured ("stripesong calibrate")
nobody knows how wide your yarn lies once washed, nor how far light spreads in it.

Red-green blind eyes count too: of normal, protan (red-blind) and deutan
(green-blind) sight, the one that sees a pattern least decides.

dE00 (CIEDE2000) is the whole difference of two colours, hue and all: 1 is just seen
side by side. "differs" tells of each piece how far it is from the piece most like
it: the average of dE00, their faces laid one on the other.`},
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
	line:    "all about a command, or about rhythms, trials, files or grades",
	example: example{"stripesong help plan", "the same as: stripesong plan --help"},
	exits:   [3]string{"the help was printed", "", "there is no such command"},
}

// The table of commands holds help, which reads the table: the knot is tied here.
func init() {
	about := "Tells all about a command, as --help after it does. Without one it lists them " +
		"all.\nBesides commands there are:\n"
	for _, t := range topics {
		about += fmt.Sprintf("  %-9s  %s\n", t.name, t.line)
	}
	about += "  man        all of it, as a page for man(1)\n"
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
