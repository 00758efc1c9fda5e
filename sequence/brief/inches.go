package brief

import "strings"

// swap is one text in place of another.
type swap struct{ metric, inches string }

// defaultInInches are what the brief that comes with the program says in inches, in
// the order of its text: sizes, densities and packages as they are where inches are
// used, not converted ones.
var defaultInInches = []swap{
	{`"46 cm" "18 in" "4.5 yd" "3 m"`, `"18 in" "27 1/4 in" "4 yd 18 in"`},
	{`"8/cm" "20/in" "80/10cm"`, `"20/in"`}, {`"225 g" "8 oz"`, `"8 oz" "1 lb"`},
	{`"cm" `, `"in" `},
	{`"46 cm"`, `"18 in"`}, {`"66 cm"`, `"26 in"`}, {`"4 cm"`, `"1 1/2 in"`}, {`"0 cm"`, `"0 in"`},
	{`"1 cm"`, `"1/2 in"`}, {`"0 cm"`, `"0 in"`},
	{`"10/cm"`, `"24/in"`}, {`"8/cm"`, `"20/in"`}, {`"11/cm"`, `"28/in"`},
	{`"100 cm"`, `"40 in"`}, {`"75 cm"`, `"30 in"`}, {`"15 cm"`, `"6 in"`}, {`"25 cm"`, `"10 in"`},
	{`"0 cm"`, `"0 in"`}, {`"9 m"`, `"10 yd"`}, {`"50/10cm"`, `"12/in"`},
	{`"6770 m/kg"`, `"3360 yd/lb"`}, {`"225 g"`, `"8 oz"`}, {`"18/cm"`, `"45/in"`},
	{`"100 g"`, `"4 oz"`}, {`"250 g"`, `"8 oz"`},
	{`"5200 m"`, `"1 lb"`}, {`"2000 m"`, `"8 oz"`}, {`"100 g"`, `"4 oz"`},
	{`"250 g"`, `"8 oz"`}, {`"250 g"`, `"8 oz"`}, {`"250 g"`, `"8 oz"`}, {`"250 g"`, `"8 oz"`},
	{`A 30 damson`, `A 28 damson`}, {`A 80 leaf shade`, `A 78 leaf shade`},
	{`A 80 leaf shade`, `A 78 leaf shade`}, {`A 30 damson`, `A 28 damson`},
	{`"82 cm", "81.5 cm"`, `"32 in", "32 1/4 in"`}, {`"3.1 m"`, `"3.4 yd"`}, {`"45 cm"`, `"18 in"`},
}

// progressInInches are the examples of the file of progress in inches, likewise.
var progressInInches = []swap{
	{`"50.4 cm" "6.2 m" "52 g"`, `"19 7/8 in" "6 yd 18 in" "2 oz"`},
	{`"82 cm", "81.5 cm", "82.5 cm"`, `"32 1/4 in", "32 in", "32 1/2 in"`},
	{`"1 cm"`, `"3/8 in"`}, {`"1 cm"`, `"3/8 in"`}, {`"5 mm"`, `"1/4 in"`}, {`"1 g"`, `"0.1 oz"`},
	{`"3.1 m"`, `"3.4 yd"`}, {`"3 m"`, `"3.3 yd"`}, {`"45 cm"`, `"18 in"`},
	{`"6.5 m"`, `"7.1 yd"`}, {`"20 cm"`, `"8 in"`},
	{`"215 g"`, `"7.6 oz"`}, {`"32 g"`, `"1.1 oz"`}, {`"400 g"`, `"14.1 oz"`},
}

// measuredInInches are the examples of the file of measurements in inches, likewise.
var measuredInInches = []swap{
	{`"50.4 cm" "20 in" "6.2 m" "52 g"`, `"19 7/8 in" "27.25 in" "6 yd 18 in" "2 oz"`},
	{`"1 mm"`, `"1/16 in"`}, {`"1 g"`, `"0.1 oz"`},
	{`"54 cm"`, `"21 1/4 in"`}, {`"51.2 cm"`, `"20 1/8 in"`}, {`"46.1 cm"`, `"18 1/8 in"`},
	{`"2 mm"`, `"1/8 in"`},
	{`"82 cm"`, `"32 1/4 in"`}, {`"73.6 cm"`, `"29 in"`}, {`"2 mm"`, `"1/8 in"`},
	{`"6.3 m"`, `"6 yd 32 in"`}, {`"5.1 m"`, `"5 yd 21 in"`}, {`"76 cm"`, `"30 in"`},
	{`"1 cm"`, `"1/2 in"`},
	{`"28 g"`, `"1 oz"`}, {`metres`, `yards`}, {`"1 g"`, `"0.1 oz"`},
	{`"0.8 mm"`, `"1/32 in"`}, {`"0.1 mm"`, `"0.005 in"`},
}

// swapped is a text with the swaps made in their order. Comments stay in their columns.
func swapped(text []byte, all []swap) []byte {
	var b strings.Builder
	rest := string(text)
	for _, s := range all {
		before, after, _ := strings.Cut(rest, s.metric)
		comment := strings.TrimLeft(after, " ")
		if gap := len(after) - len(comment); gap > 0 && strings.HasPrefix(comment, "#") {
			gap = max(1, gap+len(s.metric)-len(s.inches))
			after = strings.Repeat(" ", gap) + comment
		}
		b.WriteString(before + s.inches)
		rest = after
	}
	return []byte(b.String() + rest)
}
