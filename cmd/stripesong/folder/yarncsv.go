package folder

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
)

// YarnHeader names the columns of yarn.csv.
var YarnHeader = []string{"colour", "yarn", "hex", "tex", "warp_m", "ground_m", "pattern_m",
	"total_m", "total_g",
	"sample_m", "needed_m", "on_hand_m", "short_m", "short_g", "packages", "price", "cost"}

// Yarn writes the yarn of a plan as a table for a spreadsheet: RFC 4180,
// one row a colour, an empty cell for what is not known; in metres and grams, or for
// a brief in inches in yards and ounces.
func Yarn(w io.Writer, p *plan.Plan) error {
	table := csv.NewWriter(w)
	table.UseCRLF = true
	table.Write(headerIn(p.Units))
	for _, y := range p.Yarn {
		table.Write(yarnRow(y, hexOf(p, y.Colour), yarnUnitsOf(p.Units)))
	}
	table.Flush()
	return table.Error()
}

// yarnUnits are what figures of yarn are in: how many metres and grams one is.
type yarnUnits struct{ metres, grams float64 }

func yarnUnitsOf(units string) yarnUnits {
	if units == "in" { // the international yard and ounce (1959)
		return yarnUnits{0.9144, 28.349523125}
	}
	return yarnUnits{1, 1}
}

func (u yarnUnits) length(metres float64) string {
	return number(exact.RoundTo(metres/u.metres, 4))
}
func (u yarnUnits) weight(grams float64) string { return number(exact.RoundTo(grams/u.grams, 4)) }

// lengthOr is empty where a length is not known.
func (u yarnUnits) lengthOr(metres *float64) string {
	if metres == nil {
		return ""
	}
	return u.length(*metres)
}

// headerIn is the header with the units of a brief in its names.
func headerIn(units string) []string {
	if units != "in" {
		return YarnHeader
	}
	header := slices.Clone(YarnHeader)
	for i, name := range header {
		if stem, ok := strings.CutSuffix(name, "_m"); ok {
			header[i] = stem + "_yd"
		} else if stem, ok := strings.CutSuffix(name, "_g"); ok {
			header[i] = stem + "_oz"
		}
	}
	return header
}

func yarnRow(y plan.Yarn, hex string, in yarnUnits) []string {
	packages := ""
	if y.Packages != nil {
		packages = strconv.Itoa(*y.Packages)
	}
	return []string{textCell(y.Colour), textCell(y.Yarn), textCell(hex), number(y.Tex),
		in.length(y.WarpM), in.length(y.GroundM), in.length(y.PatternM), in.length(y.TotalM),
		in.weight(y.TotalG), in.length(y.SampleM), in.length(y.NeededM()), in.lengthOr(y.OnHandM),
		in.length(y.ShortM), in.weight(y.ShortG), packages, textOr(y.Price), textOr(y.Cost)}
}

func hexOf(p *plan.Plan, colour string) string {
	for _, c := range p.Colours {
		if c.Name == colour {
			return c.RGB.Hex()
		}
	}
	return ""
}

// textCell keeps a text from being run as a formula, by the apostrophe that
// spreadsheets take for "this is text". Controls are shown, which leaves no
// cell that begins with a tab or a line's end.
func textCell(s string) string {
	s = screen.Visible(s)
	trimmed := strings.TrimSpace(s) // as some programs do before they look
	for _, start := range []string{"=", "+", "-", "@", "＝", "＋", "－", "＠"} {
		if strings.HasPrefix(trimmed, start) {
			return "'" + s
		}
	}
	return s
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func textOr(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
