package palette

import (
	"errors"
	"fmt"
	"image"
	"io"
)

// Crop is what a piece of a photo that shows one thing has to tell.
type Crop struct {
	Light  Linear  // the mean of its pixels, in linear light
	Blown  float64 // share of the pixels with a channel as bright as can be, 0..1
	Uneven float64 // how far its cells differ, over the mean: (brightest - darkest) / mean
}

// cropCells is into how many cells a side a crop is divided to see whether its
// light is even.
const cropCells = 3

// leastCrop is the least length of a crop's sides, in pixels.
const leastCrop = 24

// ReadCrop reads a PNG or JPEG, as [ReadPhoto] does, that shows one thing in one
// light. Besides what that refuses, a picture with a side of less than 24 pixels
// is an error.
func ReadCrop(r io.Reader, limits Limits) (Crop, error) {
	picture, err := decode(r, limits)
	if err != nil {
		return Crop{}, err
	}
	if b := picture.Bounds(); b.Dx() < leastCrop || b.Dy() < leastCrop {
		return Crop{}, fmt.Errorf("the picture is %d by %d pixels, less than %d each way", b.Dx(),
			b.Dy(), leastCrop)
	}
	cells := cellsOf(picture)
	var all cell
	for _, c := range cells {
		all = all.and(c)
	}
	if all.n == 0 {
		return Crop{}, errors.New("the picture has no opaque pixel")
	}
	return Crop{Light: all.mean(), Blown: float64(all.blown) / float64(all.n),
		Uneven: uneven(cells, all)}, nil
}

// cell is the sum of the pixels in a part of a crop: how many there are of each
// level of each channel, so that the sum is the same in any order.
type cell struct {
	levels [3][256]int64
	n      int64
	blown  int64
}

func (c cell) and(d cell) cell {
	for i := range c.levels {
		for v := range c.levels[i] {
			c.levels[i][v] += d.levels[i][v]
		}
	}
	c.n, c.blown = c.n+d.n, c.blown+d.blown
	return c
}

// mean is that of a cell's pixels.
func (c cell) mean() (mean Linear) {
	for i := range mean {
		for level, n := range c.levels[i] {
			mean[i] += float64(float64(n) * light[level])
		}
		mean[i] /= float64(c.n)
	}
	return mean
}

func cellsOf(picture image.Image) []cell {
	cells := make([]cell, cropCells*cropCells)
	at, b := lookup(picture), picture.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			r, g, blue, opaque := at(b.Min.X+x, b.Min.Y+y)
			if !opaque {
				continue
			}
			c := &cells[y*cropCells/b.Dy()*cropCells+x*cropCells/b.Dx()]
			for i, v := range [3]uint32{r, g, blue} {
				c.levels[i][v]++
			}
			c.n++
			if max(r, g, blue) == 255 {
				c.blown++
			}
		}
	}
	return cells
}

// uneven compares the luminance of cells with that of all of them together.
func uneven(cells []cell, all cell) float64 {
	mean := all.mean().XYZ()[1]
	least, most := mean, mean
	for _, c := range cells {
		if c.n > 0 {
			y := c.mean().XYZ()[1]
			least, most = min(least, y), max(most, y)
		}
	}
	if mean == 0 {
		return 0
	}
	return (most - least) / mean
}
