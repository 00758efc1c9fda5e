package plan

import (
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/weave"
)

// Schema names the form of the plan; it changes only when a field changes its
// meaning, which it does not.
const Schema = "stripesong.plan/1"

// Plan is everything worked out from one brief. It is made once by [Make] and
// only read afterwards. Numbers carry their unit in their name and are rounded
// to four decimals.
type Plan struct {
	Schema    string  `json:"schema"`
	Title     string  `json:"title"`
	Units     string  `json:"units"` // what reports print: "cm" or "in"
	Seed      int64   `json:"seed"`
	Structure string  `json:"structure"`
	Warp      Warp    `json:"warp"`
	Pieces    []Piece `json:"pieces"`
	Set       Set     `json:"set"`
	Yarn      []Yarn  `json:"yarn"`
	Notes     []Note  `json:"notes"`
	Sample    *Sample `json:"sample"` // null where none is woven

	// GramsPerM2 is the weight of the finished cloth, hems unfolded.
	GramsPerM2 float64 `json:"grams_per_m2"`

	Cost *Cost `json:"cost"` // null where no yarn has a price

	// Midway is absent where nothing is woven yet.
	Midway *Midway `json:"midway,omitempty"`

	Cloth   Cloth            `json:"cloth"`   // densities and losses the plan was reckoned with
	Loom    Loom             `json:"loom"`    // reed, sleying, sheds
	Colours []Colour         `json:"colours"` // those the plan uses, in the order of [Plan.Yarn]
	Yarns   []Thickness      `json:"yarns"`   // those of the colours, in the same order
	Mixes   []Mix            `json:"mixes"`   // what the eye sees of each combination that occurs
	Weave   *weave.Structure `json:"weave"`   // the structure itself, as data
}

// Warp is the one warp that carries the set, seen as the weaver faces the
// loom: the first run is at her left.
type Warp struct {
	Units int `json:"units"`
	// not counting floating selvedges
	Ends int `json:"ends"`
	// of these, beside the units: 1 or none
	ClosingEnds          int     `json:"closing_ends,omitempty"`
	FloatingSelvedgeEnds int     `json:"floating_selvedge_ends"`
	SettPerCM            float64 `json:"sett_per_cm"`
	ReedWidthMM          float64 `json:"reed_width_mm"`
	WovenWidthMM         float64 `json:"woven_width_mm"` // at the fell, under tension
	FinishedWidthMM      float64 `json:"finished_width_mm"`
	// finished, as the brief asks; 0 where runs set it
	WantedWidthMM float64   `json:"wanted_width_mm"`
	WoundMM       float64   `json:"wound_mm"`
	WovenMM       float64   `json:"woven_mm"` // all pieces and separators
	Heddles       []int     `json:"heddles"`  // by shaft, shaft 1 first
	Runs          []WarpRun `json:"runs"`
	// what the wound length is made of; sums to WoundMM
	MakeUp []Part `json:"make_up"`

	// of colour, as the rhythm lays them; blocks may cut them into more runs
	Stripes int          `json:"stripes"`
	Blocks  []BlockShare `json:"blocks"` // how the width divides
}

// Sample is woven before the set, cut off and washed: a stretch of hem, then
// every pattern colour over every block.
type Sample struct {
	HemPicks int       `json:"hem_picks"`
	Hem      string    `json:"hem"`
	WovenMM  float64   `json:"woven_mm"`
	Runs     []WeftRun `json:"runs"`
}

// WarpRun is neighbouring units of one block and one colour.
type WarpRun struct {
	Block  string `json:"block"`
	Units  int    `json:"units"`
	Ends   int    `json:"ends"`
	Colour string `json:"colour"`

	// shaft of its closing end, to the right of its units and one of its ends; 0 for none
	Closing int  `json:"closing,omitempty"`
	Turned  bool `json:"turned,omitempty"` // its units are turned round
}

// Part is one share of the wound warp, as wound length.
type Part struct {
	Number  int     `json:"number"` // the piece's number, from 1; 0 for what is no piece
	What    string  `json:"what"`   // "piece", "separators", "sample", "retie", "fringe", "waste"
	Piece   string  `json:"piece"`  // the piece's name where What is "piece"
	WoundMM float64 `json:"wound_mm"`
}

// Piece is one towel: hem, body from the first pick up, hem.
type Piece struct {
	Name       string     `json:"name"`
	HemPicks   int        `json:"hem_picks"` // of one hem, what stays in sight apart
	Picks      int        `json:"picks"`     // all between the separators, both hems included
	WovenMM    float64    `json:"woven_mm"`
	FinishedMM float64    `json:"finished_mm"`
	Runs       []WeftRun  `json:"runs"`
	Contrast   []Contrast `json:"contrast"`

	Blocks      []BlockShare `json:"blocks"` // how the length of the body divides
	BodyUnits   int          `json:"body_units"`
	BodyWovenMM float64      `json:"body_woven_mm"`
	HemWovenMM  float64      `json:"hem_woven_mm"` // one hem
	// plain, between one hem and the body, in the hem's colour
	ShowPicks   int     `json:"show_picks"`
	ShowWovenMM float64 `json:"show_woven_mm"`
	// finished, as the brief asks; 0 where runs or a woven length set it
	WantedMM float64 `json:"wanted_mm"`
	// colour of both hems and of what stays in sight beside them
	Hem string `json:"hem"`
	// colour of the picks between this piece and the next
	Separator string `json:"separator"`
	// "runs" written by hand, "rules", or "chosen" by the search
	Origin string `json:"origin"`
	Kind   string `json:"kind"`   // of its rhythm, such as "even"; "" for runs
	Rhythm string `json:"rhythm"` // the rule in words; "" for runs
	// keys of the brief that give a chosen piece again; empty for others
	Rule          []Setting `json:"rule"`
	Face          Side      `json:"face"`
	Back          Side      `json:"back"`
	Lighter       *Lighter  `json:"lighter"`         // null where the sides pass for the same
	MoreSides     []More    `json:"more_sides"`      // what would set them further apart
	SeparatorPick int       `json:"separator_picks"` // woven after this piece; 0 after the last

	// PickOrder is the order of its picks and WeftUnitMM the woven length of its weft
	// unit, where they are not the structure's own; else "" and 0.
	PickOrder  string  `json:"pick_order,omitempty"`
	WeftUnitMM float64 `json:"weft_unit_mm,omitempty"`

	// MeasuredMM is the woven length of a piece that is woven already, as it was
	// measured; 0 for others.
	MeasuredMM float64 `json:"measured_mm,omitempty"`

	// Hours is the time its picks and the separator after it take at the brief's
	// pace; 0 where that is not given.
	Hours float64 `json:"hours,omitempty"`
}

// EndPicks is the plain picks before the body, and as many after it: a hem and
// what stays in sight beside it.
func (p Piece) EndPicks() int { return p.HemPicks + p.ShowPicks }

// Setting is a key of the brief's [[piece]] and its value as TOML has it.
type Setting struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Side is one side of a piece's body as a whole.
type Side struct {
	MeanL float64 `json:"mean_l"` // mean CIELAB lightness, by area
	// share of the area covered by pattern weft blocks, 0..1
	PatternShare float64 `json:"pattern_share"`
}

// WeftRun is neighbouring weft units of one block and one pattern colour. A
// plain run has no block and no pattern.
type WeftRun struct {
	Block        string `json:"block"`
	Units        int    `json:"units"`
	PatternPicks int    `json:"pattern_picks"`
	GroundPicks  int    `json:"ground_picks"`
	Pattern      string `json:"pattern"`
	Ground       string `json:"ground"`
	PickOrder    string `json:"pick_order,omitempty"` // "" for the structure's own
}

// Contrast is how one combination of three yarns shows.
type Contrast struct {
	Warp    string `json:"warp"`
	Ground  string `json:"ground"`
	Pattern string `json:"pattern"`
	// CIELAB of the face where the pattern weft covers the block
	On          [3]float64    `json:"on"`
	Off         [3]float64    `json:"off"` // and where it lies behind
	DeltaL      float64       `json:"delta_l"`
	DeltaE      float64       `json:"delta_e"`
	NarrowestMM float64       `json:"narrowest_mm"`
	Seen        []Seen        `json:"seen"`
	Vision      palette.Sight `json:"vision"` // that fares worst at 2 m
	HueOnly     bool          `json:"hue_only"`

	// Shares are the parts of the cloth in which each yarn is on top.
	Shares OnOff `json:"shares"`
	// Range is the least and greatest DeltaL that may be seen at 2 m; absent
	// where the brief gives both spread and scatter.
	Range []float64 `json:"range,omitempty"`
}

// OnOff is shares of pattern, warp and ground, each 0..1, where the pattern weft
// covers the block and where it lies behind.
type OnOff struct {
	On  [3]float64 `json:"on"`
	Off [3]float64 `json:"off"`
}

// Range is how far what is seen may lie from what is reckoned, as long as no
// sample was measured.
type Range struct {
	DeltaL [2]float64       `json:"delta_l"` // least, greatest
	Grades [2]palette.Grade `json:"grades"`
}

// lightness is the least and the greatest difference in lightness; nil for no
// range.
func (r *Range) lightness() []float64 {
	if r == nil {
		return nil
	}
	return r.DeltaL[:]
}

// Seen is what is left of a contrast at a distance, for the sight of its
// [Contrast].
type Seen struct {
	DistanceM float64       `json:"distance_m"`
	DeltaL    float64       `json:"delta_l"`
	DeltaE    float64       `json:"delta_e"`
	Grade     palette.Grade `json:"grade"`
	Range     *Range        `json:"range,omitempty"` // nil where nothing is left open
}

// Set is how far the pieces differ from one another.
type Set struct {
	LeastDifference float64 `json:"least_difference"` // mean dE00; 0 for fewer than two pieces
	Pairs           []Pair  `json:"pairs"`
	Face            Side    `json:"face"` // all bodies together
	Back            Side    `json:"back"`
	// of all bodies together; null where the sides pass for the same
	Lighter *Lighter `json:"lighter"`

	// the two pieces that differ least; empty for fewer than two
	Pair       []string `json:"pair"`
	PairNumber []int    `json:"pair_numbers"` // and their numbers, from 1
	AtLeast    float64  `json:"at_least"`     // what the brief asks for; 0 where it does not
	// different ones that were chosen from; 0 where nothing was
	Candidates int `json:"candidates"`
	// no choice from them has a greater least difference; 0 where nothing was chosen
	Bound float64 `json:"bound"`
	// what chosen pieces have in common; "" where nothing was chosen
	Kinship brief.Kinship `json:"kinship"`
	// the colour's name, the rhythm's kind, or the widths in units
	Shared string `json:"shared"`

	// Hours is the time of all pieces at the brief's pace; 0 where that is not given.
	Hours float64 `json:"hours,omitempty"`
}

// Pair is the difference between two pieces, which are known by their numbers:
// two pieces may have one name.
type Pair struct {
	A          string  `json:"a"`
	B          string  `json:"b"`
	Difference float64 `json:"difference"` // mean dE00
	NumberA    int     `json:"a_number"`   // of [Plan.Pieces], from 1
	NumberB    int     `json:"b_number"`
}

// Has tells whether a piece of [Plan.Pieces], counted from 0, is one of the two.
func (p Pair) Has(piece int) bool { return p.NumberA == piece+1 || p.NumberB == piece+1 }

// Yarn is what one colour takes and what the shelf holds.
type Yarn struct {
	Colour   string   `json:"colour"`
	Yarn     string   `json:"yarn"`
	WarpM    float64  `json:"warp_m"`
	GroundM  float64  `json:"ground_m"` // hems and separators included
	PatternM float64  `json:"pattern_m"`
	SampleM  float64  `json:"sample_m"` // weft of the sample, not in TotalM
	TotalM   float64  `json:"total_m"`
	TotalG   float64  `json:"total_g"`
	OnHandM  *float64 `json:"on_hand_m"` // nil where the brief does not say
	// on hand less total and sample, below 0 where short; nil like OnHandM
	SafeM *float64 `json:"safe_m"`
	// SafeM as a share of total and sample, to hold against the spare
	Safe *float64 `json:"safe"`
	// as the brief has it: "900 m", "8 oz"; "" where it does not say
	OnHand string  `json:"on_hand"`
	ShortM float64 `json:"short_m"` // total, sample and spare less what is on hand
	// to buy for ShortM; nil where the package is not given and some is short
	Packages *int     `json:"packages"`
	ShortG   float64  `json:"short_g"`
	PackageM *float64 `json:"package_m"` // one package; nil where not given
	Tex      float64  `json:"tex"`
	HemM     float64  `json:"hem_m"`       // the part of GroundM in hems
	SepM     float64  `json:"separator_m"` // the part of GroundM in separators
	// of one package, as the brief has it; nil where not given
	Price *string `json:"price"`
	Cost  *string `json:"cost"` // of the packages to buy; nil where not known
	// tails to hemstitch fringed pieces with: beside TotalM, out of what is to spare
	HemstitchM float64 `json:"hemstitch_m,omitempty"`
	// weft of each piece, its hems and the separator after it
	ByPiece []float64 `json:"by_piece_m"`
}

// NeededM is the metres that the shelf must hold: the total and the weft of the sample.
func (y Yarn) NeededM() float64 { return exact.RoundTo(y.TotalM+y.SampleM, 4) }

// NeededG is the grams of these.
func (y Yarn) NeededG() float64 { return exact.RoundTo(y.TotalG+float64(y.SampleM*y.Tex)/1000, 4) }

// Level is how much a note weighs.
type Level string

// A warning is put right before the warp is wound; a remark is good to know.
const (
	Warning Level = "warning"
	Remark  Level = "note"
)

// Note is something the weaver should know, with a stable code.
type Note struct {
	Level   Level  `json:"level"`
	Code    string `json:"code"`
	Message string `json:"message"`
}

// Cloth is what the cloth was reckoned with.
type Cloth struct {
	SettPerCM      float64 `json:"sett_per_cm"`
	GroundPerCM    float64 `json:"ground_per_cm"`
	HemGroundPerCM float64 `json:"hem_ground_per_cm"`
	DrawIn         float64 `json:"draw_in"` // shares, 0..1
	TakeUp         float64 `json:"take_up"`
	ShrinkWidth    float64 `json:"shrink_width"`
	ShrinkLength   float64 `json:"shrink_length"`
	WeftExtra      float64 `json:"weft_extra"`
	Strands        int     `json:"strands"`
	Spread         float64 `json:"spread"`
	Scatter        float64 `json:"scatter"`
	WeftUnitMM     float64 `json:"weft_unit_mm"`  // woven length of one weft unit
	PickM          float64 `json:"pick_m"`        // metres of yarn in one pick, one strand
	FloatWeftMM    float64 `json:"float_weft_mm"` // longest weft float on either side, finished
	FloatWeftEnds  int     `json:"float_weft_ends"`
	FloatWarpMM    float64 `json:"float_warp_mm"`
	FloatWarpPicks int     `json:"float_warp_picks"`
	HemMM          float64 `json:"hem_mm"`      // finished, one end, as the brief asks
	HemShowMM      float64 `json:"hem_show_mm"` // finished, one end, as the brief asks
	FringeMM       float64 `json:"fringe_mm"`   // one end of one piece
	SampleMM       float64 `json:"sample_mm"`   // woven
	RetieMM        float64 `json:"retie_mm"`    // wound, lost to tying on again after the sample
	WasteMM        float64 `json:"waste_mm"`    // wound
	Spare          float64 `json:"spare"`
	// the part of its room that the fullest weft fills, 0..1 and above
	Beat float64 `json:"beat"`
}

// Loom is the loom the plan is for and what it asks of it.
type Loom struct {
	Shafts   int `json:"shafts"`
	Treadles int `json:"treadles"` // 0 for levers
	// different sheds; with a direct tie-up shafts
	TreadlesUsed int `json:"treadles_used"`
	// "direct" where each treadle moves one shaft; else left out
	TieUp     string `json:"tie_up,omitempty"`
	Heddles   int    `json:"heddles"`          // in all; 0 where not given
	HeddlesBy []int  `json:"heddles_by_shaft"` // shaft 1 first; nil where not given
	Bout      int    `json:"bout"`             // most ends wound together
	Shed      string `json:"shed"`             // "rising", "sinking" or "both"
	// "back to front" or "front to back"; "" where not given
	Dress      string  `json:"dress"`
	ThreadFrom string  `json:"thread_from"` // "left" or "right"
	Pace       int     `json:"pace"`        // picks an hour; 0 where not given
	WidthMM    float64 `json:"width_mm"`
	BoardMM    float64 `json:"board_mm"` // 0 where not given
	WasteMM    float64 `json:"waste_mm"`
	ReedPerCM  float64 `json:"reed_per_cm"` // dents; 0 where not given
	Reed       string  `json:"reed"`        // as the brief writes it
	// of a reed as wide as the loom; 0 where either is not given
	DentsAcross int `json:"dents_across"`
	// ends in each dent, repeating; nil where no reed is given
	Sleying     []int   `json:"sleying"`
	SleyedPerCM float64 `json:"sleyed_per_cm"`
	Raddle      []int   `json:"raddle"`    // ends in each group, repeating
	RaddleMM    float64 `json:"raddle_mm"` // from one group to the next: 1 cm or 1 in
}

// ByShaft tells whether sheds are opened shaft by shaft: by levers, or by treadles that are
// tied to one shaft each.
func (l *Loom) ByShaft() bool { return l.Treadles == 0 || l.Direct() }

// Direct tells whether each treadle moves one shaft.
func (l *Loom) Direct() bool { return l.TieUp == brief.DirectTieUp }

// Colour is a colour of a yarn.
type Colour struct {
	Name string      `json:"name"`
	RGB  palette.RGB `json:"hex"`
	Yarn string      `json:"yarn"`
	Lab  [3]float64  `json:"lab"`

	Widths Widths `json:"widths"`
}

// Thickness is how thick a yarn of the set is: in the brief's own words, as in
// "16/2 cotton", "tex 148" or "6770 m/kg", and in grams to the kilometre.
type Thickness struct {
	Yarn  string  `json:"yarn"`
	Count string  `json:"count"`
	Tex   float64 `json:"tex"`
}

// Widths are how much of their room threads of a colour cover in the washed
// cloth, 0..1: as pattern weft of the height from one pattern pick to the next,
// as warp of the width from end to end, as ground weft and as weft of a hem of
// the height from one ground pick to the next.
type Widths struct {
	Pattern float64 `json:"pattern"`
	Warp    float64 `json:"warp"`
	Ground  float64 `json:"ground"`
	Hem     float64 `json:"hem"`
}

// State is where the pattern weft lies in a patch of cloth.
type State string

// Covers is pattern weft over its block, Behind pattern weft on the other side; Plain is
// ground picks alone and InHem the same, with the hem's weft.
const (
	Covers State = "on"
	Behind State = "off"
	Plain  State = "plain"
	InHem  State = "hem"
)

// Mix is the colour a patch of cloth shows from where threads can't be told
// apart; Pattern is empty where there is none. Cover is the share of ends that the pattern weft
// passes over; see [Plan.MixOf].
type Mix struct {
	Warp    string      `json:"warp"`
	Ground  string      `json:"ground"`
	Pattern string      `json:"pattern"`
	State   State       `json:"state"`
	Cover   float64     `json:"cover"`
	RGB     palette.RGB `json:"hex"`
	Lab     [3]float64  `json:"lab"`

	// PickOrder is the order of picks it is woven in and PatternWidth how much of its
	// room the pattern weft then covers, where that is not the structure's own order.
	PickOrder    string  `json:"pick_order,omitempty"`
	PatternWidth float64 `json:"pattern_width,omitempty"`
}
