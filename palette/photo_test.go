package palette

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func init() {
	// another kind registered elsewhere in a program must not get in
	image.RegisterFormat("gif", "GIF8?a", gif.Decode, gif.DecodeConfig)
}

// halves is a picture, left half one colour, right half another.
func halves(w, h int, left, right color.NRGBA) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := left
			if 2*x >= w {
				c = right
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

func pngOf(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func jpegOf(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}))
	return b.Bytes()
}

var (
	spruce = color.NRGBA{0x24, 0x46, 0x3c, 255}
	fog    = color.NRGBA{0xd8, 0xdc, 0xdb, 255}
	glass  = color.NRGBA{0xff, 0, 0, 0}
	veil   = color.NRGBA{0xd8, 0xdc, 0xdb, 200}
)

func TestReadPhotoCountsColours(t *testing.T) {
	for name, data := range map[string][]byte{
		"png":         pngOf(t, halves(64, 20, spruce, fog)),
		"translucent": pngOf(t, halves(64, 20, spruce, veil)),
	} {
		got, err := ReadPhoto(bytes.NewReader(data), PhotoLimits)
		require.NoError(t, err, name)
		assert.Equal(t, []Sample{{RGB{0x24, 0x46, 0x3c}, 640}, {RGB{0xd8, 0xdc, 0xdb}, 640}},
			got, name)
	}
	got, err := ReadPhoto(bytes.NewReader(jpegOf(t, halves(64, 16, spruce, fog))), PhotoLimits)
	require.NoError(t, err)
	clusters := Clusters(got, 2, chanceOf(1))
	assert.Less(t, DeltaE00(hex(t, "#24463c").Lab(), clusters[1].Colour.Lab()), 1.5)
	assert.InDelta(t, 0.5, clusters[0].Share, 0.01)
}

func TestReadPhotoLeavesOutWhatIsTransparent(t *testing.T) {
	got, err := ReadPhoto(bytes.NewReader(pngOf(t, halves(10, 10, glass, fog))), PhotoLimits)
	require.NoError(t, err)
	assert.Equal(t, []Sample{{RGB{0xd8, 0xdc, 0xdb}, 50}}, got)
	_, err = ReadPhoto(bytes.NewReader(pngOf(t, halves(10, 10, glass, glass))), PhotoLimits)
	assert.ErrorContains(t, err, "no opaque pixel")
}

// Pixels of one bin share their mean, halves up: 3 of 8 and 1 of 10 make 8.5.
func TestBinsHoldTheMean(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 4, 1))
	copy(m.Pix, []uint8{8, 8, 8, 10})
	got, err := ReadPhoto(bytes.NewReader(pngOf(t, m)), PhotoLimits)
	require.NoError(t, err)
	assert.Equal(t, []Sample{{RGB{9, 9, 9}, 4}}, got)
}

func TestReadPhotoRefuses(t *testing.T) {
	good := pngOf(t, halves(40, 30, spruce, fog))
	photo := jpegOf(t, halves(40, 30, spruce, fog))
	var moving bytes.Buffer
	require.NoError(t, gif.Encode(&moving, halves(4, 4, spruce, fog), nil))
	limits := Limits{Bytes: 4 << 10, Pixels: 2000}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"nothing":         {nil, "not a PNG or JPEG"},
		"text":            {[]byte("title = \"towels\""), "not a PNG or JPEG"},
		"another kind":    {moving.Bytes(), `not a PNG or JPEG picture but "gif"`},
		"cut png":         {good[:len(good)/2], "cannot decode"},
		"cut jpeg":        {photo[:len(photo)-8], "cannot decode"},
		"cut in the head": {good[:20], "not a PNG or JPEG"},
		"long file": {append(bytes.Clone(good), make([]byte, 5000)...),
			"larger than 4096 bytes"},
		"bomb":           {bomb(100_000, 100_000), "100000 by 100000 pixels"},
		"just too large": {pngOf(t, halves(2001, 1, spruce, fog)), "more than 2000"},
		"drawn for ever": {scanned(photo, 101), "more than 100 times"},
		"empty picture":  {emptied(photo), ""},
	} {
		_, err := ReadPhoto(bytes.NewReader(c.data), limits)
		assert.ErrorContains(t, err, c.want, name)
	}
	_, err := ReadPhoto(iotest.ErrReader(errors.New("no such luck")), limits)
	assert.ErrorContains(t, err, "no such luck")
	_, err = ReadPhoto(bytes.NewReader(pngOf(t, halves(2000, 1, spruce, fog))), limits)
	assert.NoError(t, err, "exactly at the limit")
}

// bomb is a PNG that only says how large it is.
func bomb(w, h uint32) []byte {
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), w)
	head = append(binary.BigEndian.AppendUint32(head, h), 8, 2, 0, 0, 0)
	out := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n"), 13)
	out = append(out, head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// scanned puts n more scan headers before the end of a JPEG.
func scanned(photo []byte, n int) []byte {
	scan := []byte{0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0}
	out := bytes.Clone(photo[:len(photo)-2])
	for range n {
		out = append(out, scan...)
	}
	return append(out, 0xff, 0xd9)
}

// emptied is a JPEG whose frame header says it is 0 pixels wide.
func emptied(photo []byte) []byte {
	out := bytes.Clone(photo)
	at := bytes.Index(out, []byte{0xff, 0xc0})
	copy(out[at+7:], []byte{0, 0})
	return out
}

func TestScansAreCountedByMarker(t *testing.T) {
	photo := jpegOf(t, halves(40, 30, spruce, fog))
	assert.Equal(t, 1, scans(photo))
	// a preview inside a segment, and what follows the end, do not count
	preview := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, 12}, bytes.Repeat([]byte{0xff, 0xda}, 5)...)
	assert.Equal(t, 1, scans(append(append(preview, 0xff, 0x01, 0xff, 0xd0), photo[2:]...)))
	assert.Equal(t, 1,
		scans(append(bytes.Clone(photo), bytes.Repeat([]byte{0xff, 0xda, 0, 2}, 9)...)))
	assert.Equal(t, 8, scans(scanned(photo, 7)))
	assert.Equal(t, 0, scans(nil))
}

// The decoders stop at what is missing without a panic, wherever a file is cut.
func TestEveryCutIsAnErrorOrAPicture(t *testing.T) {
	for _, whole := range [][]byte{pngOf(t, halves(9, 7, spruce, veil)),
		jpegOf(t, halves(9, 7, spruce, fog))} {
		for n := range len(whole) - 12 {
			_, err := ReadPhoto(bytes.NewReader(whole[:n]), PhotoLimits)
			assert.Error(t, err, "cut after %d of %d", n, len(whole))
		}
	}
}

func TestAPictureOfAnotherMakeHasNoPixels(t *testing.T) {
	type plain struct{ image.Image }
	assert.Empty(t, count(plain{halves(3, 3, spruce, fog)}))
}

func FuzzReadPhoto(f *testing.F) {
	f.Add(pngOf(f, halves(9, 7, spruce, veil)))
	f.Add(jpegOf(f, halves(9, 7, spruce, fog)))
	f.Add(bomb(60_000, 60_000))
	f.Fuzz(func(t *testing.T, data []byte) {
		samples, err := ReadPhoto(bytes.NewReader(data), Limits{Bytes: 1 << 16, Pixels: 1 << 14})
		assert.Equal(t, err == nil, len(samples) > 0)
	})
}

// A photo of 24 megapixels, made once: 6000 by 4000, with noise.
func BenchmarkReadPhoto24MP(b *testing.B) {
	m := image.NewRGBA(image.Rect(0, 0, 6000, 4000))
	seed := uint32(1)
	for i := range m.Pix {
		seed = seed*1664525 + 1013904223
		m.Pix[i] = uint8(i/24000) + uint8(seed>>28)
		if i%4 == 3 {
			m.Pix[i] = 255
		}
	}
	for name, data := range map[string][]byte{"jpeg": jpegOf(b, m), "png": pngOf(b, m)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				samples, err := ReadPhoto(io.Reader(bytes.NewReader(data)), PhotoLimits)
				require.NoError(b, err)
				Clusters(samples, 8, chanceOf(1))
			}
		})
	}
}
