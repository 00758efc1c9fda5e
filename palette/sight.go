package palette

// Sight is a kind of colour vision.
type Sight int

// Normal sight; protan, without working long-wave cones (about 1 man in 100);
// deutan, without middle-wave ones (about 1 man in 100, weaker forms 5).
const (
	Normal Sight = iota
	Protan
	Deutan
)

// Sights is all of them, in order.
var Sights = [...]Sight{Normal, Protan, Deutan}

// String is "normal", "protan" or "deutan".
func (s Sight) String() string {
	return [...]string{"normal", "protan", "deutan"}[s]
}

// MarshalText is [Sight.String], so that answers have the word.
func (s Sight) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads what [Sight.String] says.
func (s *Sight) UnmarshalText(text []byte) (err error) {
	*s, err = called(string(text), Sights[:])
	return err
}

// Eyes are the eyes of that sight, in words for people.
func (s Sight) Eyes() string {
	return [...]string{"ordinary eyes", "red-blind eyes", "green-blind eyes"}[s]
}

// See is what a colour looks like to these eyes, as a colour for normal ones:
// the matrices of Machado, Oliveira & Fernandes (IEEE TVCG 15(6), 2009) for full
// severity, applied to linear light and clamped to 0..1. Most affected people
// see better than this. It shows what gets confused, not what red feels like.
func (s Sight) See(c Linear) Linear {
	if s == Normal {
		return c
	}
	return Linear(machado[s].times(c)).clamp()
}

// machado holds the published six figures, each row divided by its sum: the
// figures leave rows up to 1e-6 off, which would tint greys.
var machado = [...]matrix{
	Protan: evenRows(matrix{
		{0.152286, 1.052583, -0.204868},
		{0.114503, 0.786281, 0.099216},
		{-0.003882, -0.048116, 1.051998},
	}),
	Deutan: evenRows(matrix{
		{0.367322, 0.860646, -0.227968},
		{0.280085, 0.672501, 0.047413},
		{-0.011820, 0.042940, 0.968881},
	}),
}

// evenRows makes every row sum to 1.
func evenRows(m matrix) matrix {
	for i, row := range m {
		sum := row[0] + row[1] + row[2]
		for j := range row {
			m[i][j] = row[j] / sum
		}
	}
	return m
}
