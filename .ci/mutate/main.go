// Mutate changes one operator or constant at a time and runs the tests of its
// package: a change that no test notices is printed. Nothing on disk is touched.
//
//	go run ./.ci/mutate                      # all packages, every change: hours
//	go run ./.ci/mutate -every 40            # one change in forty
//	go run ./.ci/mutate -every 5 ./palette   # of one package
//
// The exit code is 1 where more than -alive per cent of the changes live.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
)

var defaultPackages = []string{"./palette", "./sequence", "./sequence/weave", "./sequence/yarn",
	"./sequence/measure", "./sequence/plan"}

// mutant is one change: text at a place of a file, and what stands there instead.
type mutant struct {
	file     string
	line     int
	from, to int
	old, new string
}

func main() {
	every := flag.Int("every", 1, "try one change in this many")
	first := flag.Int("first", 0, "and begin with this one")
	alive := flag.Float64("alive", 100, "most per cent of the changes that may live")
	flag.Parse()
	packages := flag.Args()
	if len(packages) == 0 {
		packages = defaultPackages
	}
	var tried, lived int
	for _, pkg := range packages {
		t, l, err := try(pkg, *every, *first)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(2)
		}
		fmt.Printf("%s: %d of %d live\n", pkg, l, t)
		tried, lived = tried+t, lived+l
	}
	if tried == 0 || float64(lived)*100 > *alive*float64(tried) {
		fmt.Printf("%d of %d live\n", lived, tried)
		os.Exit(1)
	}
}

// try runs the tests of a package against its changes.
func try(pkg string, every, first int) (tried, lived int, err error) {
	files, err := filepath.Glob(filepath.Join(pkg, "*.go"))
	if err != nil {
		return 0, 0, err
	}
	var all []mutant
	for _, file := range files {
		if !strings.HasSuffix(file, "_test.go") {
			found, err := mutants(file)
			if err != nil {
				return 0, 0, err
			}
			all = append(all, found...)
		}
	}
	for i := first; i < len(all); i += every {
		killed, built := test(pkg, all[i])
		if !built {
			continue
		}
		tried++
		if !killed {
			lived++
			fmt.Printf("alive %s:%d: %s -> %s\n", all[i].file, all[i].line, all[i].old, all[i].new)
		}
	}
	return tried, lived, nil
}

// test tells whether a package's tests notice a change, and whether it builds.
func test(pkg string, m mutant) (killed, built bool) {
	text, err := os.ReadFile(m.file)
	if err != nil {
		return false, false
	}
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return false, false
	}
	defer os.RemoveAll(dir)
	changed := filepath.Join(dir, "changed.go")
	os.WriteFile(changed, []byte(string(text[:m.from])+m.new+string(text[m.to:])), 0o600)
	original, _ := filepath.Abs(m.file)
	overlay, _ := json.Marshal(map[string]map[string]string{"Replace": {original: changed}})
	os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o600)
	command := func(args ...string) error {
		return exec.Command("go", append(args, "-overlay", filepath.Join(dir, "overlay.json"))...).
			Run()
	}
	binary := filepath.Join(dir, "package.test")
	if command("test", "-c", "-o", binary, pkg) != nil {
		return false, false
	}
	run := exec.Command(binary, "-test.short", "-test.failfast", "-test.timeout", "60s")
	run.Dir = pkg
	return run.Run() != nil, true
}

var swaps = map[token.Token]string{
	token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*", token.REM: "*",
	token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">", token.EQL: "!=",
	token.NEQ:  "==",
	token.LAND: "||", token.LOR: "&&", token.SHL: ">>", token.SHR: "<<", token.AND: "|",
	token.OR:         "&",
	token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.INC: "--", token.DEC: "++",
}

// mutants lists the changes of a file in the order of their places.
func mutants(file string) ([]mutant, error) {
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, 0)
	if err != nil {
		return nil, err
	}
	var all []mutant
	add := func(pos token.Pos, old, new string) {
		at := set.Position(pos)
		all = append(all, mutant{file, at.Line, at.Offset, at.Offset + len(old), old, new})
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BinaryExpr:
			if new, ok := swaps[n.Op]; ok {
				add(n.OpPos, n.Op.String(), new)
			}
		case *ast.AssignStmt:
			if new, ok := swaps[n.Tok]; ok {
				add(n.TokPos, n.Tok.String(), new)
			}
		case *ast.IncDecStmt:
			add(n.TokPos, n.Tok.String(), swaps[n.Tok])
		case *ast.BasicLit:
			if new, ok := another(n); ok {
				add(n.Pos(), n.Value, new)
			}
		case *ast.CallExpr:
			if name, ok := n.Fun.(*ast.Ident); ok && (name.Name == "min" || name.Name == "max") {
				add(name.Pos(), name.Name, map[string]string{"min": "max", "max": "min"}[name.Name])
			}
		}
		return true
	})
	sort.SliceStable(all, func(i, j int) bool { return all[i].from < all[j].from })
	return all, nil
}

// another is a number that is not quite a literal's.
func another(lit *ast.BasicLit) (string, bool) {
	switch lit.Kind {
	case token.INT:
		n, err := strconv.ParseInt(lit.Value, 0, 64)
		return strconv.FormatInt(n+1, 10), err == nil
	case token.FLOAT:
		x, err := strconv.ParseFloat(lit.Value, 64)
		if x == 0 {
			return "0.5", true
		}
		return strconv.FormatFloat(x*1.01, 'g', -1, 64), err == nil
	}
	return "", false
}
