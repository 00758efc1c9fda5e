package palette

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // the two kinds of picture that are read
	_ "image/png"
	"io"
)

// Limits is what a picture from a stranger may cost.
type Limits struct {
	Bytes  int64 // of the file
	Pixels int64 // of the picture, known before it is decoded
}

// PhotoLimits are meant for photographs: 64 MiB and 50 megapixels.
var PhotoLimits = Limits{Bytes: 64 << 20, Pixels: 50_000_000}

// ReadPhoto reads a PNG or JPEG and counts its colours, in the order of their
// bins: 5 bits a channel, each bin with the mean of what fell into it. Pixels
// less than half opaque are left out, others count as if they were opaque. The
// numbers are taken as sRGB, whatever profile the file carries; how the picture
// is turned does not matter.
//
// Nothing is decoded before the file is known to be no longer, and the picture
// no larger, than the limits. A file cut short, of another kind, past the
// limits, with nothing opaque in it, or made to keep a decoder busy is an error.
func ReadPhoto(r io.Reader, limits Limits) ([]Sample, error) {
	picture, err := decode(r, limits)
	if err != nil {
		return nil, err
	}
	samples := count(picture)
	if len(samples) == 0 {
		return nil, errors.New("the picture has no opaque pixel")
	}
	return samples, nil
}

// decode reads a whole picture within limits.
func decode(r io.Reader, limits Limits) (image.Image, error) {
	data, err := io.ReadAll(io.LimitReader(r, limits.Bytes+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read the picture: %w", err)
	}
	if int64(len(data)) > limits.Bytes {
		return nil, fmt.Errorf("the picture's file is larger than %d bytes", limits.Bytes)
	}
	if err := checkPhoto(data, limits); err != nil {
		return nil, err
	}
	picture, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("cannot decode the picture: %w", err)
	}
	return picture, nil
}

// checkPhoto looks at the head of a picture for what decoding it would cost.
func checkPhoto(data []byte, limits Limits) error {
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("not a PNG or JPEG picture: %w", err)
	}
	if kind != "png" && kind != "jpeg" {
		return fmt.Errorf("not a PNG or JPEG picture but %q", kind)
	}
	w, h := int64(config.Width), int64(config.Height)
	if w < 1 || h < 1 {
		return fmt.Errorf("the picture is empty: %d by %d pixels", w, h)
	}
	if w > limits.Pixels/h {
		return fmt.Errorf("the picture is %d by %d pixels, more than %d in all", w, h,
			limits.Pixels)
	}
	if kind == "jpeg" && scans(data) > scansAllowed {
		return fmt.Errorf("the picture is drawn over more than %d times", scansAllowed)
	}
	return nil
}

// scansAllowed is far above what any program writes (about ten), and low enough
// that going over the whole picture that often ends.
const scansAllowed = 100

// scans counts the passes a JPEG makes over its picture (ITU-T T.81, annex B):
// a few bytes are enough for one, so a small file could ask for millions.
func scans(data []byte) int {
	const sos, eoi, rst0, tem = 0xda, 0xd9, 0xd0, 0x01
	n := 0
	for i := 2; i+3 < len(data); {
		switch marker := data[i+1]; {
		case data[i] != 0xff || marker == 0 || marker == 0xff:
			i++ // coded picture, or filling
		case marker == eoi:
			return n
		case marker >= rst0 && marker < eoi || marker == tem:
			i += 2 // no length follows
		default:
			if marker == sos {
				n++
			}
			i += 2 + int(data[i+2])<<8 + int(data[i+3])
		}
	}
	return n
}

// bin is the sum of the pixels in one of 32 x 32 x 32 cubes of colour.
type bin struct{ r, g, b, n int64 }

// count sorts the pixels of a picture into bins.
func count(picture image.Image) []Sample {
	bins := make([]bin, 1<<15)
	at := lookup(picture)
	for y := picture.Bounds().Min.Y; y < picture.Bounds().Max.Y; y++ {
		for x := picture.Bounds().Min.X; x < picture.Bounds().Max.X; x++ {
			if r, g, b, opaque := at(x, y); opaque {
				s := &bins[r>>3<<10|g>>3<<5|b>>3]
				s.r, s.g, s.b, s.n = s.r+int64(r), s.g+int64(g), s.b+int64(b), s.n+1
			}
		}
	}
	var samples []Sample
	for _, s := range bins {
		if s.n > 0 {
			samples = append(samples, Sample{RGB{s.mean(s.r), s.mean(s.g), s.mean(s.b)}, s.n})
		}
	}
	return samples
}

// mean is a channel's sum shared among the pixels, rounded half up.
func (s bin) mean(sum int64) uint8 { return uint8((2*sum + s.n) / (2 * s.n)) }

// lookup reads a pixel as 8-bit channels, of a full colour even where the
// picture stores it multiplied by how opaque it is.
func lookup(picture image.Image) func(x, y int) (r, g, b uint32, opaque bool) {
	pixels, ok := picture.(image.RGBA64Image)
	if !ok { // all that the decoders return are
		return func(int, int) (r, g, b uint32, opaque bool) { return }
	}
	return func(x, y int) (r, g, b uint32, opaque bool) {
		c := pixels.RGBA64At(x, y)
		if c.A == 0xffff {
			return uint32(c.R) >> 8, uint32(c.G) >> 8, uint32(c.B) >> 8, true
		}
		if c.A < 0x8000 {
			return 0, 0, 0, false
		}
		full := func(v uint16) uint32 { return uint32(v) * 0xffff / uint32(c.A) >> 8 }
		return full(c.R), full(c.G), full(c.B), true
	}
}
