package main

import (
	"context"
	"fmt"
	"net"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A brief has its page at the same port each time, and at another where that is taken.
func TestOwnPort(t *testing.T) {
	t.Chdir(t.TempDir())
	one, again := &source{name: "towels.toml"}, &source{name: "./towels.toml"}
	port := ownPort(one)
	assert.Equal(t, port, ownPort(again))
	assert.NotEqual(t, port, ownPort(&source{name: "napkins.toml"}))
	for i := range 1000 {
		p := ownPort(&source{name: fmt.Sprint(i)})
		assert.True(t, p >= 49152 && p <= 65535, "%d is for private use", p)
	}

	w := &world{env: func(string) string { return "" }, err: &strings.Builder{}, patience: never}
	page, err := newPage(context.Background(), w, "")
	require.NoError(t, err)
	taken, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", ownPort(page.source)))
	if err == nil { // else another program has it
		defer taken.Close()
	}
	address, err := (&serving{}).listen(page)
	require.NoError(t, err)
	assert.NotContains(t, address, fmt.Sprintf(":%d/", ownPort(page.source)))
}
