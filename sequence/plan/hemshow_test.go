package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// shows is two pieces whose numbers come out round. A weft unit is 2 picks at 8/cm,
// 2.5 mm; a hem of 36 mm is 40 mm on the loom, 32 picks of 1.25 mm; 9 mm that stay
// in sight are 10 mm, 8 picks.
const shows = `[set]
pieces = 2
in_reed = "50 cm"
length = "360 mm"
hem = "36 mm"
hem_show = "9 mm"
separator = 2
spare = "0%"
[cloth]
sett = "8/cm"
ground = "8/cm"
hem_ground = "8/cm"
draw_in = "0%"
take_up = "0%"
shrink_width = "0%"
shrink_length = "10%"
weft_extra = "10%"
floating_selvedge = false
[loom]
waste = "500 mm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "light"
hex = "#f2eee0"
[[colour]]
name = "dark"
hex = "#20242c"
[[colour]]
name = "edge"
hex = "#803020"
[warp]
colours = ["light"]
rhythm = { kind = "even", stripes = 1 }
[weft]
ground = "light"
hem = "edge"
separator = "dark"
colours = ["dark"]
rhythm = { kind = "even", stripes = 2 }
`

func TestHemShowByHand(t *testing.T) {
	t.Run("rules: taken from the body", func(t *testing.T) {
		p := makePlan(t, "shows", []byte(shows))
		one := p.Pieces[0]
		assert.Equal(t, []int{32, 8}, []int{one.HemPicks, one.ShowPicks})
		assert.Equal(t, 152, one.BodyUnits, "(360/0.9 - 2 x 10) / 2.5")
		assert.Equal(t, 152*4+2*(32+8), one.Picks)
		assert.Equal(t, 10.0, one.ShowWovenMM)
		assert.Equal(t, 480.0, one.WovenMM, "380 + 2 x (40 + 10)")
		assert.Equal(t, 360.0, one.FinishedMM)
		assert.Equal(t, 1462.5, p.Warp.WoundMM, "2 x 480 + 2 x 1.25 + 500")
		// 400 ends at 8/cm are 500 mm; a pick takes 0.55 m: 4 x 40 picks of it.
		assert.Equal(t, 88.0, yarnOf(t, p, "edge").TotalM)
		assert.Equal(t, 88.0, yarnOf(t, p, "edge").HemM)
	})
	t.Run("the same on the loom", func(t *testing.T) {
		p := makePlan(t, "shows", with(t, shows, `length = "360 mm"`, `woven = "480 mm"`))
		assert.Equal(t, 152, p.Pieces[0].BodyUnits, "(480 - 2 x (40 + 10)) / 2.5")
		assert.Equal(t, []float64{480, 360}, []float64{p.Pieces[0].WovenMM, p.Pieces[0].FinishedMM})
	})
	t.Run("runs: added to them", func(t *testing.T) {
		p := makePlan(t, "shows",
			[]byte(shows+"[[piece]]\nruns = [\"A 60 dark\", \"B 40 dark\"]\n"))
		one := p.Pieces[0]
		assert.Equal(t, 100, one.BodyUnits)
		assert.Equal(t, 350.0, one.WovenMM, "250 + 2 x (40 + 10)")
		assert.Equal(t, 243.0, one.FinishedMM, "(250 + 20) x 0.9")
	})
	t.Run("held runs: scaled to what is left", func(t *testing.T) {
		text := shows + "[[piece]]\nhold = true\nruns = [\"A 60 dark\", \"B 40 dark\"]\n"
		p := makePlan(t, "shows", []byte(text))
		runs := p.Pieces[0].Runs
		assert.Equal(t, []int{91, 61}, []int{runs[0].Units, runs[1].Units},
			"152 as 3 to 2: 91.2, 60.8")
		assert.Equal(t, 360.0, p.Pieces[0].FinishedMM)
	})
	t.Run("nearest even, a tie up", func(t *testing.T) {
		for length, picks := range map[string]int{
			"1 mm": 0, "1.125 mm": 2, "10 mm": 8, "10.125 mm": 10, "10.2 mm": 10, "0 cm": 0,
		} {
			p := makePlan(t, "shows", with(t, shows, `"9 mm"`, `"`+length+`"`))
			assert.Equal(t, picks, p.Pieces[0].ShowPicks, length)
		}
	})
	t.Run("without a hem", func(t *testing.T) {
		p := makePlan(t, "shows", with(t, shows, `hem = "36 mm"`, `hem = "0 mm"`))
		assert.Equal(t, []float64{400, 360}, []float64{p.Pieces[0].WovenMM, p.Pieces[0].FinishedMM})
		require.NotNil(t, p.Shades().Hem("light", "edge"))
	})
	t.Run("contrast is that of the body", func(t *testing.T) {
		text := shows + "[[piece]]\nruns = [\"A 60 dark\", \"B 40 dark\"]\n"
		none := makePlan(t, "shows", with(t, text, `hem_show = "9 mm"`, `hem_show = "0 mm"`))
		some := makePlan(t, "shows", []byte(text))
		assert.Equal(t, none.Pieces[0].Contrast, some.Pieces[0].Contrast)
	})
}

func TestHemShowTooLong(t *testing.T) {
	refused := func(show string) string {
		b, err := brief.Parse("shows", with(t, shows, `"9 mm"`, show), brief.Options{})
		if err == nil {
			_, err = Make(context.Background(), b)
		}
		require.Error(t, err)
		return err.Error()
	}
	assert.Contains(t, refused(`"18 cm"`), "leaves no room for a body between the hems")
	assert.Contains(t, refused(`"9000 m"`), "leaves no room")
	assert.Contains(t, refused(`"11 km"`), "shows:6:12: set.hem_show: ")
	assert.Contains(t, refused(`9`), "shows:6:12: set.hem_show: ")
}
