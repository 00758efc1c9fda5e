package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"stripesong/cmd/stripesong/screen"
)

// flags are those of one command, in groups that help shows apart.
type flags struct {
	all    *pflag.FlagSet
	groups []group
}

type group struct {
	title, note string
	set         *pflag.FlagSet
	topic       string // in whose help it stands; "" for the command's own
}

func newFlags() *flags { return &flags{all: emptySet()} }

func emptySet() *pflag.FlagSet {
	set := pflag.NewFlagSet("", pflag.ContinueOnError)
	set.SortFlags = false
	set.Usage = func() {}
	return set
}

// group opens a group of flags, titled in help; add fills it.
func (f *flags) group(title, note string) {
	f.groups = append(f.groups, group{title: title, note: note, set: emptySet()})
}

// sharedGroup opens one that help shows in a topic.
func (f *flags) sharedGroup(topic, title, note string) {
	f.group(title, note)
	f.groups[len(f.groups)-1].topic = topic
}

// topics are those in which flags of a command stand, each once.
func (f *flags) topics() (names []string) {
	for _, g := range f.groups {
		if g.topic != "" && !slices.Contains(names, g.topic) {
			names = append(names, g.topic)
		}
	}
	return names
}

// add declares a flag in the latest group.
func (f *flags) add(name, usage string, v pflag.Value) *pflag.Flag {
	set := f.groups[len(f.groups)-1].set
	flag := set.VarPF(v, name, "", usage)
	f.all.AddFlag(flag)
	return flag
}

// write prints the flags for help, all but those that are shared.
func (f *flags) write(b *strings.Builder) {
	for _, g := range f.groups {
		if g.topic == "" {
			b.WriteString(g.title + ":\n" + usages(g.set))
		}
	}
	if len(f.topics()) == 0 && len(f.groups) > 0 {
		b.WriteString("\n")
	}
}

// writeTopic prints those of a topic.
func (f *flags) writeTopic(b *strings.Builder, topic string) {
	for _, g := range f.groups {
		if g.topic != topic {
			continue
		}
		b.WriteString(g.title + ":\n")
		if g.note != "" {
			b.WriteString("  " + strings.ReplaceAll(g.note, "\n", "\n  ") + "\n")
		}
		b.WriteString(usages(g.set) + "\n")
	}
}

// leftOut is what a flag whose value may be left out is given then: no argument
// of a program can hold a zero byte, so it is no file's name.
const leftOut = "\x00"

// usages are the flags of a group as help shows them, a value that may be left
// out as --flag[=VALUE].
func usages(set *pflag.FlagSet) string {
	var optional []*pflag.Flag
	set.VisitAll(func(flag *pflag.Flag) {
		if flag.NoOptDefVal == leftOut {
			optional = append(optional, flag)
			flag.NoOptDefVal = flag.Value.Type()
		}
	})
	text := set.FlagUsagesWrapped(helpWidth)
	for _, flag := range optional {
		kind := flag.Value.Type()
		flag.NoOptDefVal = leftOut
		old := fmt.Sprintf("--%s %s[=%s]", flag.Name, kind, kind)
		now := screen.Pad(fmt.Sprintf("--%s[=%s]", flag.Name, kind), len(old))
		text = strings.Replace(text, old, now, 1)
	}
	return text
}

// parse reads arguments and returns those that are not flags. The error is
// pflag.ErrHelp where help was asked for, and a [mistake] otherwise.
func (f *flags) parse(args []string) ([]string, error) {
	if wantsHelp(args) {
		return nil, pflag.ErrHelp
	}
	if err := f.swallowed(args); err != nil {
		return nil, err
	}
	if err := f.all.Parse(args); err != nil {
		return nil, f.explain(err)
	}
	return f.all.Args(), nil
}

// wantsHelp tells whether help is among the arguments, whatever else is wrong
// with them.
func wantsHelp(args []string) bool {
	for _, a := range args {
		switch a {
		case "--":
			return false
		case "--help", "-h":
			return true
		}
	}
	return false
}

// swallowed finds a flag that lacks its value and would take the next flag for
// it. A negative number is a value.
func (f *flags) swallowed(args []string) error {
	for i := 0; i < len(args) && args[i] != "--"; i++ {
		flag := f.all.Lookup(strings.TrimPrefix(args[i], "--"))
		if flag == nil || !strings.HasPrefix(args[i], "--") || flag.NoOptDefVal != "" {
			continue
		}
		if i++; i < len(args) && looksLikeFlag(args[i]) {
			return mistake{what: fmt.Sprintf("--%s needs a value, but %q follows", flag.Name,
				args[i]),
				hint: fmt.Sprintf("a value that begins with a dash is written --%s=%s", flag.Name,
					args[i])}
		}
	}
	return nil
}

func looksLikeFlag(arg string) bool {
	return len(arg) > 1 && arg[0] == '-' && (arg[1] < '0' || arg[1] > '9') && arg[1] != '.'
}

// explain puts what pflag says into our words.
func (f *flags) explain(err error) error {
	var unknown *pflag.NotExistError
	var empty *pflag.ValueRequiredError
	var bad *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		return f.unknown(unknown)
	case errors.As(err, &empty):
		m := mistake{what: fmt.Sprintf("--%s needs a value", empty.GetSpecifiedName())}
		if v, ok := empty.GetFlag().Value.(*value); ok {
			m.hint = v.hint
		}
		return m
	case errors.As(err, &bad):
		var m mistake
		if !errors.As(err, &m) {
			m.what = bad.Unwrap().Error()
		}
		return mistake{what: fmt.Sprintf("--%s: %s", bad.GetFlag().Name, m.what), hint: m.hint}
	}
	return mistake{what: err.Error()}
}

func (f *flags) unknown(e *pflag.NotExistError) error {
	name, written := e.GetSpecifiedName(), "--"+e.GetSpecifiedName()
	if short := e.GetSpecifiedShortnames(); short != "" {
		name, written = short, "-"+short
	}
	name, _, _ = strings.Cut(name, "=")
	m := mistake{what: fmt.Sprintf("there is no flag %s", written)}
	if near := nearestFlag(name, f.names()); near != "" {
		m.hint = fmt.Sprintf("did you mean --%s?", near)
	}
	return m
}

func (f *flags) names() []string {
	names := []string{"help"}
	f.all.VisitAll(func(flag *pflag.Flag) { names = append(names, flag.Name) })
	return names
}
