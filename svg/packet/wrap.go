package packet

import "strings"

// How high and wide type stands on paper, in mm; see style.css.
const (
	pointMM = 25.4 / 72
	bold    = 1.11 // times as wide as regular type
)

// wordsMM is how wide each word is; blanks part words, no-break blanks do not.
func wordsMM(text string, sizeMM float64) (wide []float64) {
	for _, word := range strings.Split(text, " ") {
		wide = append(wide, float64(ems(word)*sizeMM))
	}
	return wide
}

// wrapped is over how many lines words of some widths go in a column, rather more than
// fewer; one that is wider than the column breaks within itself.
func wrapped(words []float64, sizeMM, columnMM float64) int {
	space := float64(ems(" ") * sizeMM)
	lines, at := 1, 0.0
	for _, wide := range words {
		switch {
		case at > 0 && at+space+wide > columnMM:
			lines++
			at = wide
		case at > 0:
			at += space + wide
		default:
			at = wide
		}
		for ; at > columnMM; at -= columnMM {
			lines++
		}
	}
	return lines
}

// widths are those of letters in regular type, in hundredths of its size, rounded up: of
// DejaVu Sans, which is the widest of those that style.css names.
var widths = widthsOf(map[float64]string{
	28: "'ijl", 30: "IJ", 32: " \u00a0·,.", 34: ":;/|\\", 36: "f-", 40: "()[]t", 42: "!r",
	53: "?sz",
	55: "c", 58: "FLk", 60: "vxy", 62: "aeoT", 70: "ABCKRVXZ", 75: "NU", 79: "&DGHOQ",
	84: "#+<=>w~",
	87: "M", 98: "%@Wm",
})

func widthsOf(letters map[float64]string) map[rune]float64 {
	of := map[rune]float64{}
	for wide, letters := range letters {
		for _, r := range letters {
			of[r] = wide
		}
	}
	return of
}

// ems is how wide words are, in sizes of their type.
func ems(text string) float64 {
	sum := 0.0
	for _, r := range text {
		switch wide, known := widths[r]; {
		case known:
			sum += wide
		case r < 0x250:
			sum += 64
		default:
			sum += 100
		}
	}
	return sum / 100
}
