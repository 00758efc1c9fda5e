package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCosts: 528 ends of 4 yd are 1931.2128 m, 440 ground picks of 22 in 245.872 m,
// and as many pattern picks the same. At 1000 m to a package and 12.50 each, three
// and one are bought; the yarn in the set is 2422.9568 m, worth 30.287.
func TestCosts(t *testing.T) {
	priced := []string{`package = "225 g"`, "package = \"1000 m\"\nprice = \"12.50\""}
	t.Run("nothing on hand", func(t *testing.T) {
		p := makePlan(t, "small", with(t, small, priced...))
		light, dark := yarnOf(t, p, "light"), yarnOf(t, p, "dark")
		assert.Equal(t, []string{"12.50", "37.50", "12.50"},
			[]string{*light.Price, *light.Cost, *dark.Cost})
		assert.Equal(t, &Cost{Buy: "50.00", Unpriced: []string{}, Used: pointer("30.29"),
			Piece: pointer("30.29")}, p.Cost)
	})
	t.Run("two pieces share", func(t *testing.T) {
		p := makePlan(t, "small", with(t, small, append(priced, "pieces = 1", "pieces = 2")...))
		// 22 in more of warp, 295.0464 m, and the weft again: 3209.7472 m
		assert.Equal(t, []string{"40.12", "20.06"}, []string{*p.Cost.Used, *p.Cost.Piece})
	})
	t.Run("enough on hand", func(t *testing.T) {
		hex := "hex = \"#20242c\""
		p := makePlan(t, "small",
			with(t, small, append(priced, hex, hex+"\non_hand = \"900 m\"")...))
		assert.Equal(t, "0.00", *yarnOf(t, p, "dark").Cost)
		assert.Equal(t, "37.50", p.Cost.Buy)
	})
	t.Run("decimals as they are written", func(t *testing.T) {
		for price, want := range map[string]string{
			"0.1": "0.4", "7": "28", "0.3333": "1.3332", "123456789.99": "493827159.96",
			" 2.05 ": "8.20", "0": "0",
		} {
			p := makePlan(t, "small",
				with(t, small, priced[0], "package = \"1000 m\"\nprice = \""+price+"\""))
			assert.Equal(t, want, p.Cost.Buy, price)
		}
	})
	t.Run("one of two yarns priced", func(t *testing.T) {
		other := "[yarn.linen]\ncount = \"16/1 linen\"\npackage = \"250 g\"\n[[colour]]\n" +
			"name = \"light\"\nyarn = \"cotton\""
		text := with(t, small,
			append(priced, "[[colour]]\nname = \"light\"", other, "name = \"dark\"",
				"name = \"dark\"\nyarn = \"linen\"")...)
		p := makePlan(t, "small", text)
		assert.Equal(t, &Cost{Buy: "37.50", Unpriced: []string{"dark"}}, p.Cost)
		assert.Nil(t, yarnOf(t, p, "dark").Cost)
		assert.Contains(t, noteOf(t, p, "cost-unknown"), `what "dark" costs is not known`)
	})
	t.Run("a price without a package", func(t *testing.T) {
		p := makePlan(t, "small", with(t, small, priced[0], `price = "12.50"`))
		assert.Equal(t, &Cost{Buy: "0.00", Unpriced: []string{"light", "dark"}}, p.Cost)
	})
	t.Run("no price", func(t *testing.T) {
		p := makePlan(t, "small", with(t, small))
		assert.Nil(t, p.Cost)
		assert.Nil(t, p.Yarn[0].Price)
	})
}

func noteOf(t *testing.T, p *Plan, code string) string {
	t.Helper()
	for _, n := range p.Notes {
		if n.Code == code {
			return n.Message
		}
	}
	require.Fail(t, "no such note", code)
	return ""
}
