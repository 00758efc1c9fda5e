package main

import (
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func manPage(t *testing.T) string {
	t.Helper()
	var out, mistakes bytes.Buffer
	code := run([]string{"help", "man"}, strings.NewReader(""), &out, &mistakes,
		func(string) string { return "" }, never)
	require.Equal(t, 0, code, mistakes.String())
	return out.String()
}

func TestManHasEveryCommandAndFlag(t *testing.T) {
	page := manPage(t)
	for _, c := range commands() {
		assert.Contains(t, page, "\n.SS "+c.name+"\n")
		f := newFlags()
		c.prepare(f)
		f.all.VisitAll(func(flag *pflag.Flag) {
			assert.Contains(t, page, "\n.B "+inRoff("--"+flag.Name))
		})
	}
	requests := regexp.MustCompile(`^\.(TH|SH|SS|TP|PP|B|br)( |$)`)
	for _, line := range strings.Split(strings.TrimSpace(page), "\n") {
		if strings.HasPrefix(line, ".") {
			assert.Regexp(t, requests, line)
		}
		assert.NotRegexp(t, `^'`, line)
	}
}

// mandoc is the formatter of BSD systems, a reader of man pages other than their writer.
func TestManIsAManPage(t *testing.T) {
	path, err := exec.LookPath("mandoc")
	if err != nil && os.Getenv("STRIPESONG_CI") != "" {
		t.Fatal("mandoc is not installed")
	}
	if err != nil {
		t.Skip("mandoc is not installed: the manual was not read by another program")
	}
	page := manPage(t)
	cmd := exec.Command(path, "-T", "lint", "-W", "warning")
	cmd.Stdin = strings.NewReader(page)
	out, _ := cmd.CombinedOutput()
	// a build has no date, and neither has its manual
	assert.Regexp(t, `^mandoc: <stdin>:1:\d+: WARNING: missing date, using "": TH\n$`, string(out))
}
