package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

const bashHead = `# stripesong for bash: source this file, or put it where bash-completion looks
_stripesong() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]}
  local words= files= first= after= word
  if [ "$cur" = = ]; then # bash takes the sign for a word of its own
    cur=
  elif [ "$prev" = = ]; then
    prev=${COMP_WORDS[COMP_CWORD-2]}
  fi
  if [ "$COMP_CWORD" -eq 1 ]; then
    words='%s --help --version'
  else
    case ${COMP_WORDS[1]}:$prev:$cur in
`

const bashTail = `    *) files=1 ;;
    esac
  fi
  if [ -n "$first" ]; then # one of these, unless it is there already
    words=$first
    for word in "${COMP_WORDS[@]:2:COMP_CWORD-2}"; do
      case " $first " in
      *" $word "*) words= files=$after ;;
      esac
    done
  fi
  local IFS=$'\n'
  if [ -n "$files" ]; then
    COMPREPLY=($(compgen -f -- "$cur"))
  else
    COMPREPLY=($(compgen -W "${words// /$IFS}" -- "$cur"))
  fi
}
complete -o filenames -F _stripesong stripesong
`

func bashScript(w io.Writer, all []completed) {
	var names []string
	for _, c := range all {
		names = append(names, c.name)
	}
	fmt.Fprintf(w, bashHead, strings.Join(names, " "))
	for _, c := range all {
		bashCases(w, c)
	}
	io.WriteString(w, bashTail)
}

// bashCases are those of one command: the values of its flags, the flags, and what
// may stand first.
func bashCases(w io.Writer, c completed) {
	for _, f := range c.flags {
		then := ""
		switch {
		case f.bare:
			continue
		case f.values != nil:
			then = " words=" + single(strings.Join(f.values, " "))
		case f.file:
			then = " files=1"
		}
		fmt.Fprintf(w, "    %s:--%s:*)%s ;;\n", c.name, f.name, then)
	}
	fmt.Fprintf(w, "    %s:*:-*) words='%s' ;;\n", c.name, c.long())
	if len(c.words) > 0 {
		after := ""
		if c.files {
			after = "1"
		}
		fmt.Fprintf(w, "    %s:*) first='%s' after=%s ;;\n", c.name,
			strings.Join(c.words, " "), after)
	}
}

func zshScript(w io.Writer, all []completed) {
	fmt.Fprint(w, "#compdef stripesong\n# stripesong for zsh: save as _stripesong in a folder of "+
		"$fpath, or source it after compinit\n_stripesong() {\n  local -a commands\n  commands=(\n")
	for _, c := range all {
		fmt.Fprintf(w, "    %s\n", single(c.name+":"+strings.ReplaceAll(c.line, ":", `\:`)))
	}
	fmt.Fprint(w, "  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n"+
		"    return\n  fi\n  shift words\n  (( CURRENT-- ))\n  case $words[1] in\n")
	for _, c := range all {
		fmt.Fprintf(w, "  %s) _arguments", c.name)
		for _, f := range c.flags {
			fmt.Fprintf(w, " \\\n    %s", single(zshFlag(f)))
		}
		if len(c.words) > 0 {
			fmt.Fprintf(w, " \\\n    %s", single("1:what:("+strings.Join(c.words, " ")+")"))
		}
		if c.files {
			fmt.Fprintf(w, " \\\n    %s", single("*:file:_files"))
		}
		fmt.Fprint(w, " ;;\n")
	}
	fmt.Fprint(w, "  esac\n}\nif [[ ${funcstack[1]} == _stripesong ]]; then _stripesong \"$@\"; "+
		"else compdef _stripesong stripesong; fi\n")
}

// zshFlag is a flag as _arguments wants it.
func zshFlag(f completedFlag) string {
	plain := strings.NewReplacer("[", "(", "]", ")", ":", `\:`).Replace(f.usage)
	switch {
	case f.bare:
		return fmt.Sprintf("--%s[%s]", f.name, plain)
	case f.values != nil:
		return fmt.Sprintf("--%s=[%s]:%s:(%s)", f.name, plain, f.name, strings.Join(f.values, " "))
	}
	if !f.file {
		return fmt.Sprintf("--%s=[%s]:%s: ", f.name, plain, f.name)
	}
	return fmt.Sprintf("--%s=[%s]:%s:_files", f.name, plain, f.name)
}

func fishScript(w io.Writer, all []completed) {
	fmt.Fprint(w, "# stripesong for fish: save as ~/.config/fish/completions/stripesong.fish\n")
	for _, c := range all {
		fmt.Fprintf(w, "complete -c stripesong -n __fish_use_subcommand -f -a %s -d %s\n", c.name,
			fishText(c.line))
		in := fmt.Sprintf("complete -c stripesong -n '__fish_seen_subcommand_from %s'", c.name)
		if len(c.words) > 0 {
			fmt.Fprintf(w, "complete -c stripesong -n '%s' -f -a '%s'\n",
				fishFirst(c), strings.Join(c.words, " "))
		}
		if len(c.words) > 0 && !c.files {
			fmt.Fprintf(w, "%s -f\n", in)
		}
		for _, f := range c.flags {
			fmt.Fprintf(w, "%s -l %s -d %s", in, f.name, fishText(f.usage))
			switch {
			case f.bare:
			case f.values != nil:
				fmt.Fprintf(w, " -x -a '%s'", strings.Join(f.values, " "))
			case f.file:
				fmt.Fprint(w, " -r -F")
			default:
				fmt.Fprint(w, " -x")
			}
			fmt.Fprintln(w)
		}
	}
}

// fishFirst is the condition that a command has no operand yet.
func fishFirst(c completed) string {
	others := slices.DeleteFunc(slices.Clone(c.words), func(word string) bool {
		return word == c.name
	})
	return fmt.Sprintf("__fish_seen_subcommand_from %s; and not __fish_seen_subcommand_from %s",
		c.name, strings.Join(others, " "))
}

// single is a text in single quotes for bash and zsh.
func single(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

// fishText is a text in single quotes for fish, which knows \' inside them.
func fishText(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(s) + "'"
}
