package page_test

import (
	"context"
	"encoding/json"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/workbench"
)

// shelf is storage that keeps everything in memory.
type shelf struct {
	saved     []byte
	copies    map[string][]byte
	asks      engine.Why // instead of saving
	origin    int        // of what was to be saved last
	published int

	mu      sync.Mutex
	unsaved []byte
	keptOne chan struct{} // told of every text that was kept; nil for nobody
	cannot  error         // why nothing can be kept
	left    []engine.Left
	taken   []int
	noFile  bool
}

func (s *shelf) Called() string { return "towels.toml" }
func (s *shelf) FromFile() bool { return !s.noFile }

func (s *shelf) Keep(text []byte, _ int) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.unsaved = text; text == nil {
		return "", nil
	}
	if s.cannot != nil {
		return "", s.cannot
	}
	if s.keptOne != nil {
		s.keptOne <- struct{}{}
	}
	return "towels-unsaved.toml", nil
}

func (s *shelf) Left() []engine.Left { return s.left }

func (s *shelf) TakenUp(id int) int {
	s.taken = append(s.taken, id)
	return -id
}

func (s *shelf) Forget(id int) error {
	s.left = slices.DeleteFunc(slices.Clone(s.left), func(l engine.Left) bool { return l.ID == id })
	return nil
}

func (s *shelf) Save(text []byte, origin int, over bool) (name, before string, err error) {
	s.origin = origin
	if s.asks != "" && !over {
		return "", "", &engine.Conflict{Why: s.asks, File: s.saved}
	}
	s.saved, s.asks = text, ""
	return "towels.toml", "", nil
}

func (s *shelf) SaveAs(title string, text []byte) (string, error) {
	if s.copies == nil {
		s.copies = map[string][]byte{}
	}
	s.copies[title] = text
	return "copy.toml", nil
}

func (s *shelf) Reread() ([]byte, int, error) { return s.saved, 1, nil }

func (s *shelf) Known(int) { s.asks = "" }

func (s *shelf) Publish(context.Context, *plan.Plan) (string, error) {
	s.published++
	return "towels", nil
}

// serve serves a brief for one test.
func serve(t testing.TB, text []byte) (*page.Server, *workbench.Bench, *shelf) {
	t.Helper()
	storage := &shelf{saved: text}
	server, bench := serveAt(t, text, storage)
	return server, bench, storage
}

// serveAt serves a brief that is stored there.
func serveAt(t testing.TB, text []byte, storage engine.Storage) (*page.Server, *workbench.Bench) {
	t.Helper()
	server, bench, _ := serving(t, text, storage)
	return server, bench
}

// serving serves a brief until it is ended, by the end of the test at last.
func serving(t testing.TB, text []byte,
	storage engine.Storage) (*page.Server, *workbench.Bench, func() error) {
	t.Helper()
	bench, err := workbench.Open(context.Background(), "towels.toml", text, brief.Options{})
	require.NoError(t, err)
	server, err := page.New(engine.New(bench, storage, "stripesong page towels.toml"))
	require.NoError(t, err)
	server.Unlimited()
	_, err = server.Listen(0)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- server.Serve(ctx) }()
	end := sync.OnceValue(func() error { stop(); return <-done })
	t.Cleanup(func() { assert.NoError(t, end()) })
	return server, bench, end
}

// quote is a text as a script has it.
func quote(text string) string {
	out, _ := json.Marshal(text)
	return string(out)
}

// must is what there is where nothing can go wrong.
func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}
