package plan

import (
	"bytes"
	"encoding/json"
	"math/big"

	"stripesong/sequence/exact"
)

// perCM is threads to the centimetre of threads to the millimetre.
func perCM(perMM *big.Rat) float64 { return exact.Rounded(exact.Times(perMM, exact.Whole(10))) }

// JSON is an answer as text, indented by a space a level, with a newline at the end.
func JSON(answer any) ([]byte, error) { return Indented(answer, " ") }

// Indented is [JSON] with another indent.
func Indented(answer any, indent string) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	err := e.Encode(answer)
	return b.Bytes(), err
}
