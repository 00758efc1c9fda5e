package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"stripesong/sequence/plan"
)

var updateScripts = flag.Bool("update-scripts", false, "renew what the scripts compare with")

// testsThenTidy takes away what the tests built.
type testsThenTidy struct{ *testing.M }

func (m testsThenTidy) Run() int {
	defer func() { os.RemoveAll(built.dir) }()
	debug.SetGCPercent(400) // as the program does
	return m.M.Run()
}

func TestMain(m *testing.M) {
	testscript.Main(testsThenTidy{m}, map[string]func(){"stripesong": func() {
		settleRuntime()
		// no word hangs on time
		os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, never))
	}})
}

// TestScripts runs every script of testdata/script, one behaviour a file. Each
// finds small.toml in its folder, and these commands besides the usual ones:
//
//	brief FILE OLD NEW   writes small.toml with OLD replaced by NEW; \n and \t are understood
//	field FILE PATH WANT holds a value of a JSON file against WANT, as in pieces.0.name; len is
//	                     a length
//	entries DIR N        counts what is in a folder
//	exits CODE COMMAND.. runs a command that must end with that code
//	samepiece A B N      holds piece N, from 0, of two plans against each other
//	sameblocks A B N     the same for its blocks and colours, at another length
//	alike A B KEY        holds two JSON files against each other, but for one key
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil || len(scripts) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *updateScripts,
		Setup:               setUp,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"brief": writeBrief, "field": checkField, "entries": countEntries, "exits": exits,
			"alike": alike, "samepiece": samePiece, "sameblocks": sameBlocks},
	})
}

func setUp(env *testscript.Env) error {
	text, err := os.ReadFile("testdata/small.toml")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(env.WorkDir, "small.toml"), text, 0o644)
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	code := 0
	if exit := (*exec.ExitError)(nil); errors.As(ts.Exec(args[1], args[2:]...), &exit) {
		code = exit.ExitCode()
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("it ended with %d, not %s", code, args[0])
	}
}

func alike(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: alike A B KEY")
	}
	var both [2]map[string]any
	for i := range both {
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[i])), &both[i]))
		delete(both[i], args[2])
	}
	if !reflect.DeepEqual(both[0], both[1]) {
		ts.Fatalf("%s and %s differ in more than %s", args[0], args[1], args[2])
	}
}

func samePiece(ts *testscript.TestScript, neg bool, args []string) {
	one, other := twoPieces(ts, neg, args)
	if one == nil || !reflect.DeepEqual(one, other) {
		ts.Fatalf("piece %s differs: %v and %v", args[2], one, other)
	}
}

func sameBlocks(ts *testscript.TestScript, neg bool, args []string) {
	one, other := twoPieces(ts, neg, args)
	words := func(runs []plan.WeftRun) (all []string) {
		for _, r := range runs {
			all = append(all, r.Block+" "+r.Pattern)
		}
		return all
	}
	if one == nil || reflect.DeepEqual(one, other) || !slices.Equal(words(one), words(other)) {
		ts.Fatalf("piece %s has other blocks, or is as long: %v and %v", args[2], one, other)
	}
}

// twoPieces are the runs of a piece in two plans.
func twoPieces(ts *testscript.TestScript, neg bool, args []string) (one, other []plan.WeftRun) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: samepiece A B N")
	}
	n, err := strconv.Atoi(args[2])
	ts.Check(err)
	var runs [2][]plan.WeftRun
	for i := range runs {
		var p plan.Plan
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[i])), &p))
		runs[i] = p.Pieces[n].Runs
	}
	return runs[0], runs[1]
}

func writeBrief(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: brief FILE OLD NEW")
	}
	unescape := strings.NewReplacer(`\n`, "\n", `\t`, "\t", `\e`, `\u001b`)
	old, text := unescape.Replace(args[1]), ts.ReadFile("small.toml")
	if strings.Count(text, old) != 1 {
		ts.Fatalf("%q is not in small.toml once", old)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]),
		[]byte(strings.Replace(text, old, unescape.Replace(args[2]), 1)), 0o644))
}

func checkField(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 {
		ts.Fatalf("usage: field FILE PATH WANT")
	}
	decode := json.NewDecoder(bytes.NewReader([]byte(ts.ReadFile(args[0]))))
	decode.UseNumber()
	var at any
	ts.Check(decode.Decode(&at))
	if decode.More() {
		ts.Fatalf("%s holds more than one value", args[0])
	}
	got, _ := json.Marshal(walk(ts, at, args[1]))
	if same := strings.Trim(string(got), `"`) == args[2]; same == neg {
		ts.Fatalf("%s is %s", args[1], got)
	}
}

func walk(ts *testscript.TestScript, at any, path string) any {
	for key := range strings.SplitSeq(path, ".") {
		switch v := at.(type) {
		case map[string]any:
			at = v[key]
		case []any:
			if key == "len" {
				return len(v)
			}
			i, err := strconv.Atoi(key)
			ts.Check(err)
			at = v[i]
		default:
			ts.Fatalf("nothing at %s of %s", key, path)
		}
	}
	return at
}

func countEntries(ts *testscript.TestScript, neg bool, args []string) {
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	if want, _ := strconv.Atoi(args[1]); (len(entries) == want) == neg {
		ts.Fatalf("%s holds %d entries: %v", args[0], len(entries), entries)
	}
}
