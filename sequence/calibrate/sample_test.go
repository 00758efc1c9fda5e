package calibrate

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// sampleBrief is a cloth of three yarns: a light warp, a middling ground and a dark
// pattern weft.
const sampleBrief = `
title = "a sample"
[set]
pieces = 2
width  = "40 cm"
length = "60 cm"
hem    = "3 cm"
[cloth]
structure = "halvdrall"
sett = "8/cm"
ground = "6/cm"
[loom]
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "chalk"
hex  = "#e4dfd2"
[[colour]]
name = "straw"
hex  = "#c2a566"
[[colour]]
name = "night"
hex  = "#2b2f4a"
[warp]
colours = ["chalk"]
rhythm  = { kind = "even", stripes = 3 }
[weft]
ground  = "straw"
colours = ["night"]
rhythm  = { kind = "even", stripes = 5 }
`

const sampleFile = `
[sample]
pattern_area = "pattern.png"
ground_area  = "ground.png"
wraps = { chalk = "chalk.png", straw = "straw.png", night = "night.png" }
`

// studio photographs cloth and yarn of which all is known.
type studio struct {
	tint    palette.Linear // light of the lamps, by channel
	noise   float64        // standard deviation, of the light
	blur    int            // pixels each way
	falloff float64        // how much darker the right edge is
	jpeg    bool
	chance  *rand.Rand
}

func evenStudio() *studio {
	return &studio{tint: palette.Linear{0.62, 0.5, 0.34}, noise: 0.02, blur: 2,
		chance: rand.New(rand.NewPCG(1, 2))}
}

// photo is a picture of yarns that cover shares of it, in flecks of 3 pixels, in
// light that is mixed in all.
func (s *studio) photo(t *testing.T, yarns []palette.Part, mixed palette.Linear) palette.Crop {
	t.Helper()
	const side, fleck = 180, 3
	plain := palette.Mix(yarns...)
	var light [side][side]palette.Linear
	for y := 0; y < side; y += fleck {
		for x := 0; x < side; x += fleck {
			l := s.pick(yarns)
			for i := range l {
				l[i] *= mixed[i] / plain[i]
			}
			for k := range fleck * fleck {
				light[y+k/fleck][x+k%fleck] = l
			}
		}
	}
	picture := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			l := s.blurred(&light, x, y)
			for i := range l {
				l[i] *= s.tint[i] * (1 - s.falloff*float64(x)/side)
				l[i] = max(0, l[i]*(1+s.noise*s.chance.NormFloat64()))
			}
			c := l.RGB()
			picture.SetNRGBA(x, y, color.NRGBA{c.R, c.G, c.B, 255})
		}
	}
	return s.develop(t, picture)
}

func (s *studio) pick(yarns []palette.Part) palette.Linear {
	at := s.chance.Float64()
	for _, y := range yarns {
		if at -= y.Area; at < 0 {
			return y.Colour
		}
	}
	return yarns[len(yarns)-1].Colour
}

func (s *studio) blurred(light *[180][180]palette.Linear, x, y int) (mean palette.Linear) {
	n := 0.0
	for v := max(0, y-s.blur); v <= min(179, y+s.blur); v++ {
		for u := max(0, x-s.blur); u <= min(179, x+s.blur); u++ {
			for i := range mean {
				mean[i] += light[v][u][i]
			}
			n++
		}
	}
	for i := range mean {
		mean[i] /= n
	}
	return mean
}

func (s *studio) develop(t *testing.T, picture image.Image) palette.Crop {
	t.Helper()
	var file bytes.Buffer
	if s.jpeg {
		require.NoError(t, jpeg.Encode(&file, picture, &jpeg.Options{Quality: 90}))
	} else {
		require.NoError(t, png.Encode(&file, picture))
	}
	crop, err := palette.ReadCrop(&file, palette.PhotoLimits)
	require.NoError(t, err)
	return crop
}

// cloth photographs both areas of a cloth of the brief as it truly is, and its
// yarns wrapped round a card.
func (s *studio) cloth(t *testing.T, b *brief.Brief, spread, scatter float64) Photos {
	t.Helper()
	return s.clothOf(t, b, look.Trio{Warp: 0, Ground: 1, Pattern: 2}, spread, scatter)
}

func (s *studio) clothOf(t *testing.T, b *brief.Brief, trio look.Trio, spread,
	scatter float64) Photos {
	t.Helper()
	is := look.At(b, spread, scatter)
	parts := func(shares look.Shares) []palette.Part {
		return []palette.Part{
			{Colour: is.Light(trio.Warp), Area: shares.Warp},
			{Colour: is.Light(trio.Ground), Area: shares.Ground},
			{Colour: is.Light(trio.Pattern), Area: shares.Pattern},
		}
	}
	on, off := is.OnOff(trio)
	photos := Photos{
		"sample.pattern_area": s.photo(t, parts(is.OnShares(trio)), on),
		"sample.ground_area":  s.photo(t, parts(is.OffShares(trio)), off),
	}
	for _, i := range []int{trio.Warp, trio.Ground, trio.Pattern} {
		photos[brief.WrapKey(b.Colours[i].Name)] = s.photo(t,
			[]palette.Part{{Colour: is.Light(i), Area: 1}}, is.Light(i))
	}
	return photos
}

func sampled(t *testing.T, text, measured string) (*brief.Brief, func(Photos) (*Answer, error)) {
	t.Helper()
	b, err := brief.Parse("b.toml", []byte(text), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	m, err := brief.ParseMeasured("m.toml", []byte(measured))
	require.NoError(t, err)
	return b, func(photos Photos) (*Answer, error) { return Make(b, p, m, photos) }
}

// TestSampleIsFound: the truth of photographed cloth is found again, whatever the
// light it was photographed in.
func TestSampleIsFound(t *testing.T) {
	b, learn := sampled(t, sampleBrief, sampleFile)
	for _, truth := range []struct{ spread, scatter float64 }{{1.3, 0.01}, {1.45, 0.03},
		{1.2, 0.06}, {1.6, 0}} {
		for _, asJPEG := range []bool{false, true} {
			t.Run(fmt.Sprintf("%v JPEG %v", truth, asJPEG), func(t *testing.T) {
				s := evenStudio()
				s.jpeg = asJPEG
				a, err := learn(s.cloth(t, b, truth.spread, truth.scatter))
				require.NoError(t, err)
				require.Len(t, a.Sample.Values, 2)
				spread, scatter := a.Sample.Values[0], a.Sample.Values[1]
				t.Logf("%s %v..%v, %s %v..%v, off %v", spread.Text(), spread.Least, spread.Most,
					scatter.Text(), scatter.Least, scatter.Most, a.Sample.Fit.Off)
				assert.Equal(t, "cloth.spread", spread.Key)
				assert.InDelta(t, truth.spread, spread.Measured, 0.06)
				assert.True(t, spread.Solved)
				assert.LessOrEqual(t, spread.Least, truth.spread)
				assert.GreaterOrEqual(t, spread.Most, truth.spread)
				assert.Equal(t, "cloth.scatter", scatter.Key)
				assert.InDelta(t, truth.scatter, scatter.Measured, 0.01)
				assert.LessOrEqual(t, scatter.Least, truth.scatter)
				assert.GreaterOrEqual(t, scatter.Most, truth.scatter)
				assert.Less(t, a.Sample.Fit.Off, 1.0)
			})
		}
	}
}

func refusal(t *testing.T, learn func(Photos) (*Answer, error), photos Photos, want string) {
	t.Helper()
	_, err := learn(photos)
	var problems brief.Problems
	require.ErrorAs(t, err, &problems)
	assert.ErrorContains(t, err, want)
	assert.NotEmpty(t, problems[0].Hint)
}

// TestPhotosThatCannotBeRight are refused, each with what is wrong with it.
func TestPhotosThatCannotBeRight(t *testing.T) {
	b, learn := sampled(t, sampleBrief, sampleFile)
	good := func() (*studio, Photos) {
		s := evenStudio()
		return s, s.cloth(t, b, 1.45, 0.03)
	}
	t.Run("overexposed", func(t *testing.T) {
		s := evenStudio()
		s.tint = palette.Linear{1.6, 1.5, 1.4}
		refusal(t, learn, s.cloth(t, b, 1.45, 0.03),
			`m.toml:5:19: sample.wraps.chalk: "chalk.png" is overexposed: 100 % of it`)
	})
	t.Run("uneven light", func(t *testing.T) {
		s := evenStudio()
		s.falloff = 0.6
		refusal(t, learn, s.cloth(t, b, 1.45, 0.03), `the light on "pattern.png" is uneven`)
	})
	t.Run("areas exchanged", func(t *testing.T) {
		_, photos := good()
		photos["sample.pattern_area"], photos["sample.ground_area"] = photos["sample.ground_area"],
			photos["sample.pattern_area"]
		refusal(t, learn, photos,
			"sample.pattern_area: pattern_area and ground_area look as if they had changed places")
	})
	t.Run("another yarn on the card", func(t *testing.T) {
		_, photos := good()
		photos[brief.WrapKey("straw")] = photos[brief.WrapKey("night")]
		refusal(t, learn, photos, `sample.wraps.straw: "straw.png" is dE00`)
	})
	t.Run("another cloth", func(t *testing.T) {
		s, photos := good()
		red := palette.Linear{0.4, 0.02, 0.02}
		photos["sample.ground_area"] = s.photo(t, []palette.Part{{Colour: red, Area: 1}}, red)
		refusal(t, learn, photos, "no spread and scatter explain this photo")
	})
	t.Run("not read", func(t *testing.T) {
		refusal(t, learn, nil, `picture "pattern.png" was not read`)
	})
	t.Run("nothing but black", func(t *testing.T) {
		s := evenStudio()
		s.tint = palette.Linear{}
		refusal(t, learn, s.cloth(t, b, 1.45, 0.03), "too dark")
	})
}

// TestWhatCannotBeToldIsSaid: yarns nearly alike hide both numbers, and yarn of
// measured width has no spread.
func TestWhatCannotBeToldIsSaid(t *testing.T) {
	t.Run("yarns nearly alike", func(t *testing.T) {
		alike := strings.NewReplacer("#c2a566", "#d9d2c0", "#2b2f4a", "#cdc5b2").
			Replace(sampleBrief)
		b, learn := sampled(t, alike, sampleFile)
		a, err := learn(evenStudio().cloth(t, b, 1.45, 0.03))
		require.NoError(t, err)
		for _, v := range a.Sample.Values {
			assert.False(t, v.Solved, v.Key)
			assert.Contains(t, v.From, "can't be told from this photo")
		}
		assert.Empty(t, a.Changes())
	})
	t.Run("measured widths", func(t *testing.T) {
		wrapped := strings.Replace(sampleBrief, `count = "8/2 cotton"`,
			"count = \"8/2 cotton\"\nwraps = \"13/cm\"", 1)
		b, learn := sampled(t, wrapped, sampleFile)
		a, err := learn(evenStudio().cloth(t, b, 1.45, 0.03))
		require.NoError(t, err)
		require.Len(t, a.Sample.Values, 1)
		assert.Equal(t, "cloth.scatter", a.Sample.Values[0].Key)
		assert.InDelta(t, 0.03, a.Sample.Values[0].Measured, 0.005)
	})
}

// TestFloatWidthByHand: 8/2 cotton is 147.6 tex, so one strand is
// 0.03568 sqrt(147.6 * 1.1) = 0.4547 mm round (F. T. Peirce, "The geometry of cloth
// structure", Journal of the Textile Institute 28, 1937, from memory), and a float of
// 0.65 mm lies 1.43 times as wide; 0.05 mm either way it is 1.32 and 1.54, and 3 mm would
// be 6.60. Two strands are 1 + 2/pi = 1.6366 times as wide as one: 0.7441 mm, and a float
// of 1.1 mm lies 1.48 times as wide, of 1.05 and 1.15 mm 1.41 and 1.55.
func TestFloatWidthByHand(t *testing.T) {
	one := "[sample]\npattern = \"night\"\nfloat_width = \"0.65 mm\"\nto = \"0.05 mm\"\n"
	for _, c := range []struct {
		name, brief, measured   string
		spread, least, greatest float64
	}{
		{"one strand", sampleBrief, one, 1.43, 1.32, 1.54},
		{"two strands", strings.Replace(sampleBrief, "[loom]", "strands = 2\n[loom]", 1),
			strings.Replace(one, "0.65", "1.1", 1), 1.48, 1.41, 1.55},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, learn := sampled(t, c.brief, c.measured)
			a, err := learn(nil)
			require.NoError(t, err)
			require.Len(t, a.Sample.Values, 1)
			v := a.Sample.Values[0]
			assert.Equal(t, "cloth.spread", v.Key)
			assert.InDelta(t, c.spread, v.Measured, 1e-9)
			assert.InDelta(t, c.least, v.Least, 1e-9)
			assert.InDelta(t, c.greatest, v.Most, 1e-9)
			assert.InDelta(t, 1.5, v.Assumed, 1e-9)
			assert.Equal(t, []brief.Change{{Key: "cloth.spread", Value: v.Text()}}, a.Changes())
			assert.Nil(t, a.Sample.Fit)
		})
	}
	t.Run("a float of three millimetres", func(t *testing.T) {
		_, learn := sampled(t, sampleBrief, strings.Replace(one, "0.65", "3", 1))
		refusal(t, learn, nil,
			"m.toml:3:15: sample.float_width: a float of 3 mm would lie 6.60 times as wide")
	})
	t.Run("a yarn whose wraps were measured", func(t *testing.T) {
		_, learn := sampled(t,
			strings.Replace(sampleBrief, `count = "8/2 cotton"`,
				"count = \"8/2 cotton\"\nwraps = \"13/cm\"", 1), one)
		refusal(t, learn, nil, `sample.float_width: yarn "cotton" has wraps`)
	})
}

// TestFloatAndPhoto: the ruler gives the spread, and the photo the scatter alone.
func TestFloatAndPhoto(t *testing.T) {
	b, learn := sampled(t, sampleBrief, sampleFile+"float_width = \"0.66 mm\"\nto = \"0.05 mm\"\n")
	a, err := learn(evenStudio().cloth(t, b, 1.45, 0.03))
	require.NoError(t, err)
	require.Len(t, a.Sample.Values, 2)
	assert.InDelta(t, 1.45, a.Sample.Values[0].Measured, 0.01)
	assert.InDelta(t, 0.03, a.Sample.Values[1].Measured, 0.002)
	t.Run("that contradict one another", func(t *testing.T) {
		b, learn := sampled(t, sampleBrief,
			sampleFile+"float_width = \"0.55 mm\"\nto = \"0.02 mm\"\n")
		refusal(t, learn, evenStudio().cloth(t, b, 1.45, 0.03),
			"sample.float_width: the float gives a spread of 1.17 to 1.25, the photo one of 1.")
	})
}

// TestLearnedLeavesNoRange: with both numbers written, grades have no range any more.
func TestLearnedLeavesNoRange(t *testing.T) {
	b, learn := sampled(t, sampleBrief, sampleFile)
	a, err := learn(evenStudio().cloth(t, b, 1.45, 0.03))
	require.NoError(t, err)
	after, err := brief.Edit("b.toml", []byte(sampleBrief), a.Changes())
	require.NoError(t, err)
	_, before := planned(t, []byte(sampleBrief))
	_, p := planned(t, after)
	assert.NotNil(t, before.Pieces[0].Contrast[0].Range)
	assert.Nil(t, p.Pieces[0].Contrast[0].Range)
}

// TestWhichColours: what the file leaves out is the only one there can be, or asked for.
func TestWhichColours(t *testing.T) {
	two := strings.Replace(sampleBrief, `colours = ["chalk"]`, `colours = ["chalk", "straw"]`, 1)
	for _, c := range []struct{ name, brief, measured, want string }{
		{"two warps", two, sampleFile, "sample.warp: is missing"},
		{"a colour that is not there", sampleBrief, sampleFile + "pattern = \"nigth\"\n",
			`m.toml:6:11: sample.pattern: the brief has no colour "nigth"`},
		{"a wrap of one", sampleBrief, strings.Replace(sampleFile, "straw =", "starw =", 1),
			`sample.wraps.starw: the brief has no colour "starw"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, learn := sampled(t, c.brief, c.measured)
			photos := evenStudio().cloth(t, b, 1.45, 0.03)
			photos["sample.wraps.starw"] = photos["sample.wraps.straw"]
			refusal(t, learn, photos, c.want)
		})
	}
}
