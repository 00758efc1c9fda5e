package folder

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
)

// YarnHeader names the columns of yarn.csv.
var YarnHeader = []string{"colour", "yarn", "hex", "tex", "warp_m", "ground_m", "pattern_m", "total_m", "total_g",
	"sample_m", "needed_m", "on_hand_m", "short_m", "short_g", "packages", "price", "cost"}

// Yarn writes the yarn of a plan as a table for a spreadsheet: RFC 4180,
// one row a colour, an empty cell for what is not known.
func Yarn(w io.Writer, p *plan.Plan) error {
	table := csv.NewWriter(w)
	table.UseCRLF = true
	table.Write(YarnHeader)
	for _, y := range p.Yarn {
		table.Write(yarnRow(y, hexOf(p, y.Colour)))
	}
	table.Flush()
	return table.Error()
}

func yarnRow(y plan.Yarn, hex string) []string {
	packages := ""
	if y.Packages != nil {
		packages = strconv.Itoa(*y.Packages)
	}
	return []string{textCell(y.Colour), textCell(y.Yarn), textCell(hex), number(y.Tex),
		number(y.WarpM), number(y.GroundM), number(y.PatternM), number(y.TotalM), number(y.TotalG),
		number(y.SampleM), number(y.NeededM()), numberOr(y.OnHandM), number(y.ShortM),
		number(y.ShortG), packages, textOr(y.Price), textOr(y.Cost)}
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

func numberOr(x *float64) string {
	if x == nil {
		return ""
	}
	return number(*x)
}
