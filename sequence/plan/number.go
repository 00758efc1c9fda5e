package plan

import (
	"bytes"
	"encoding/json"
	"math"
	"math/big"
)

var tenThousand = big.NewRat(10_000, 1)

// rounded is an exact value to four decimals, halves up.
func rounded(r *big.Rat) float64 {
	scaled := times(r, tenThousand)
	doubled := new(big.Int).Lsh(scaled.Num(), 1)
	doubled.Add(doubled, scaled.Denom())
	n := doubled.Div(doubled, new(big.Int).Lsh(scaled.Denom(), 1))
	return float64(n.Int64()) / 10_000
}

// round4 is a value that was never exact, to four decimals; never -0.
func round4(v float64) float64 { return math.Round(float64(v*10_000))/10_000 + 0 }

func lab4(l [3]float64) [3]float64 { return [3]float64{round4(l[0]), round4(l[1]), round4(l[2])} }

// perCM is threads to the centimetre of threads to the millimetre.
func perCM(perMM *big.Rat) float64 { return rounded(times(perMM, big.NewRat(10, 1))) }

func value(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

// JSON is the plan as text, indented, with a newline at the end.
func (p *Plan) JSON() ([]byte, error) { return Indented(p) }

// Indented is an answer as JSON, indented, with a newline at the end.
func Indented(answer any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(answer)
	return b.Bytes(), err
}
