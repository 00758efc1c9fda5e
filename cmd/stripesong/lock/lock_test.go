package lock

import (
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOneHoldsIt(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.lock")
	first, err := Try(path)
	require.NoError(t, err)
	_, err = Try(path)
	assert.ErrorIs(t, err, ErrHeld)
	first.Release()
	assert.NoFileExists(t, path)
	second, err := Try(path)
	require.NoError(t, err)
	second.Release()
}

func TestNoLockToBeHad(t *testing.T) {
	_, err := Try(filepath.Join(t.TempDir(), "nowhere", "x.lock"))
	require.Error(t, err)
	assert.NotErrorIs(t, err, ErrHeld)
}

func TestThere(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x.lock")
	_, err := TryThere(path)
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.NoFileExists(t, path)
	require.NoError(t, os.Symlink(path, filepath.Join(dir, "link")))
	_, err = TryThere(filepath.Join(dir, "link"))
	assert.ErrorIs(t, err, os.ErrInvalid)
	assert.NoFileExists(t, path)
	held, err := Try(path)
	require.NoError(t, err)
	_, err = TryThere(path)
	assert.ErrorIs(t, err, ErrHeld)
	require.NoError(t, held.file.Close()) // as if the program had ended
	held, err = TryThere(path)
	require.NoError(t, err)
	held.Release()
}

func TestClear(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x.lock")
	Clear(path)
	assert.NoFileExists(t, path, "nothing is made")
	held, err := Try(path)
	require.NoError(t, err)
	Clear(path)
	assert.FileExists(t, path)
	_, err = Try(path)
	assert.ErrorIs(t, err, ErrHeld)
	require.NoError(t, held.file.Close()) // as if the program had ended
	Clear(path)
	assert.NoFileExists(t, path)
	require.NoError(t, os.WriteFile(path, []byte("a note"), 0o600))
	Clear(path)
	assert.FileExists(t, path, "it is no lock")
}

// Many that take it, hold it and take the file away: never two at a time.
func TestNeverTwo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.lock")
	var inside, had atomic.Int32
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 300 {
				l, err := Try(path)
				if err != nil {
					assert.ErrorIs(t, err, ErrHeld)
					continue
				}
				assert.EqualValues(t, 1, inside.Add(1))
				had.Add(1)
				inside.Add(-1)
				l.Release()
			}
		})
	}
	all.Wait()
	assert.Positive(t, had.Load())
	assert.NoFileExists(t, path)
}

// What a program held that was killed is free, and its file still there.
func TestKilled(t *testing.T) {
	path := os.Getenv("STRIPESONG_LOCK")
	if path != "" { // the program that is killed
		_, err := Try(path)
		require.NoError(t, err)
		os.Stdout.WriteString("held\n")
		os.Stdin.Read(make([]byte, 1)) // which never comes
		return
	}
	path = filepath.Join(t.TempDir(), "x.lock")
	holder := exec.Command(os.Args[0], "-test.run=^TestKilled$")
	holder.Env = append(os.Environ(), "STRIPESONG_LOCK="+path)
	_, err := holder.StdinPipe()
	require.NoError(t, err)
	out, err := holder.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, holder.Start())
	said := make([]byte, 5)
	_, err = out.Read(said)
	require.NoError(t, err)
	require.Equal(t, "held\n", string(said))
	_, err = Try(path)
	assert.ErrorIs(t, err, ErrHeld)
	holder.Process.Kill()
	holder.Wait()
	assert.FileExists(t, path)
	l, err := Try(path)
	require.NoError(t, err)
	l.Release()
}
