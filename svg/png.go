package svg

import (
	"encoding/binary"
	"hash/crc32"
	"math/bits"

	"stripesong/palette"
)

// A picture of cloth is the same dozen lines over and over, and which line
// follows which is known. So the image data are written as what they are, a
// line once and then references back to it, in a tenth of the time a general
// compressor takes to find that out again. Formats: PNG (ISO/IEC 15948), zlib
// (RFC 1950), deflate with its fixed codes (RFC 1951, 3.2.6).

const (
	window   = 32768 // how far back deflate can refer
	longest  = 258   // the longest repeat in one reference
	shortest = 3
)

// bitmap is a picture of which each distinct line is held once.
type bitmap struct {
	width int // pixels
	// what the bytes of a line stand for; none where a pixel is three bytes, its colour
	inks   []palette.RGB
	rows   [][]byte
	order  []int // which of them each line is, from the top
	period int   // pixels after which a line is likely to repeat; 0 for none
}

// png puts the file together: size, palette, lines.
func (b bitmap) png() []byte {
	data := compress(b.rows, b.order, b.agos())
	file := append(make([]byte, 0, len(data)+1024), "\x89PNG\r\n\x1a\n"...)
	size := binary.BigEndian.AppendUint32(nil, uint32(b.width))
	size = binary.BigEndian.AppendUint32(size, uint32(len(b.order)))
	if len(b.inks) == 0 {
		file = chunk(file, "IHDR", append(size, 8, 2, 0, 0, 0)) // 8 bits a channel
	} else {
		file = chunk(file, "IHDR", append(size, 8, 3, 0, 0, 0)) // 8 bits, paletted
		file = chunk(file, "PLTE", b.palette())
	}
	file = chunk(file, "IDAT", data)
	return chunk(file, "IEND", nil)
}

// agos are the distances, in bytes of a line, at which pixels are likely to
// repeat: the next pixel, and the next unit.
func (b bitmap) agos() (all []int) {
	pixel := 1
	if len(b.inks) == 0 {
		pixel = 3
	}
	all = append(all, pixel)
	if ago := b.period * pixel; b.period > 1 && ago <= window {
		all = append(all, ago)
	}
	return all
}

// palette is the colours as PNG wants them.
func (b bitmap) palette() []byte {
	var bytes []byte
	for _, ink := range b.inks {
		bytes = append(bytes, ink.R, ink.G, ink.B)
	}
	return bytes
}

// chunk adds a piece of a PNG: length, kind, data, checksum.
func chunk(file []byte, kind string, data []byte) []byte {
	file = binary.BigEndian.AppendUint32(file, uint32(len(data)))
	from := len(file)
	file = append(append(file, kind...), data...)
	return binary.BigEndian.AppendUint32(file, crc32.ChecksumIEEE(file[from:]))
}

// compress writes the lines named by order, each behind a zero (no filter), as
// one zlib stream. Along a line bytes are often what they were some bytes ago.
func compress(rows [][]byte, order []int, agos []int) []byte {
	z := &deflater{out: append(make([]byte, 0, 8*len(order)+64), 0x78, 0x01)}
	z.put(1, 1) // the last block
	z.put(1, 2) // with fixed codes
	length := 1 + len(rows[0])
	for i := 0; i < len(order); {
		lines, ago := repeat(order, i, window/length)
		if lines*length < shortest {
			var above []byte
			if i > 0 && length <= window {
				above = rows[order[i-1]]
			}
			z.line(rows[order[i]], above, agos)
			i++
			continue
		}
		z.copy(lines*length, ago*length)
		i += lines
	}
	z.symbol(256) // end
	return binary.BigEndian.AppendUint32(z.flush(), checksum(rows, order))
}

// repeat finds how many lines from i on are the same as those some lines ago.
func repeat(order []int, i, furthest int) (lines, ago int) {
	for ago = 1; ago <= furthest && ago <= i; ago++ {
		for i+lines < len(order) && order[i+lines] == order[i+lines-ago] {
			lines++
		}
		if lines > 0 {
			return lines, ago
		}
	}
	return 0, 0
}

// checksum is the Adler-32 of all lines, reckoned line by line instead of
// byte by byte: a line adds its sum to a, and to b its length times a and the
// sum of its sums.
func checksum(rows [][]byte, order []int) uint32 {
	const prime = 65521
	type sums struct{ once, running uint64 }
	of := make([]sums, len(rows))
	for i, row := range rows {
		for _, v := range row { // the filter's zero adds nothing
			of[i].once += uint64(v)
			of[i].running += of[i].once
		}
	}
	length := uint64(1 + len(rows[0]))
	a, b := uint64(1), uint64(0)
	for _, row := range order {
		b = (b + length*a + of[row].running) % prime
		a = (a + of[row].once) % prime
	}
	return uint32(b<<16 | a)
}

// deflater packs bits, the first into the lowest place of a byte.
type deflater struct {
	out  []byte
	bits uint64
	held uint
}

func (z *deflater) put(v uint64, width uint) {
	z.bits |= v << z.held
	for z.held += width; z.held >= 8; z.held -= 8 {
		z.out = append(z.out, byte(z.bits))
		z.bits >>= 8
	}
}

func (z *deflater) flush() []byte {
	if z.held > 0 {
		z.put(0, 8-z.held)
	}
	return z.out
}

// code writes a Huffman code, whose highest bit comes first.
func (z *deflater) code(v uint32, width uint) {
	z.put(uint64(bits.Reverse32(v)>>(32-width)), width)
}

// symbol writes a literal byte, the end, or the code of a length.
func (z *deflater) symbol(s uint32) {
	switch {
	case s < 144:
		z.code(0x30+s, 8)
	case s < 256:
		z.code(0x190+s-144, 9)
	case s < 280:
		z.code(s-256, 7)
	default:
		z.code(0xc0+s-280, 8)
	}
}

// line writes a line that is not a repeat, referring back where it goes on as it
// did some bytes ago or as the line above, if there is one, does there.
func (z *deflater) line(row, above []byte, agos []int) {
	z.symbol(0)
	for x := 0; x < len(row); {
		n, distance := 0, 0
		if above != nil {
			n, distance = alikeFrom(row[x:], above[x:]), 1+len(row)
		}
		for _, ago := range agos {
			if x >= ago && n < longest {
				if m := alikeFrom(row[x:], row[x-ago:]); m > n {
					n, distance = m, ago
				}
			}
		}
		if n >= shortest {
			z.copy(n, distance)
			x += n
			continue
		}
		z.symbol(uint32(row[x]))
		x++
	}
}

// alikeFrom is how many bytes two stretches have in common at their beginning.
func alikeFrom(a, b []byte) (n int) {
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// copy repeats n bytes, at least three, from distance bytes ago.
func (z *deflater) copy(n, distance int) {
	for n > 0 {
		length := min(n, longest)
		if left := n - length; left > 0 && left < shortest {
			length -= shortest
		}
		z.reference(length, distance)
		n -= length
	}
}

// reference writes one length and one distance.
func (z *deflater) reference(length, distance int) {
	m := uint32(length - shortest)
	extra := uint(max(0, bits.Len32(m)-3))
	if length == longest {
		z.symbol(285)
	} else {
		z.symbol(257 + uint32(4*extra) + m>>extra)
		z.put(uint64(m)&(1<<extra-1), extra)
	}
	d := uint32(distance - 1)
	extra = uint(max(0, bits.Len32(d)-2))
	z.code(uint32(2*extra)+d>>extra, 5)
	z.put(uint64(d)&(1<<extra-1), extra)
}
