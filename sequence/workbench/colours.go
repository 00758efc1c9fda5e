package workbench

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

var colourOps = []Operation{
	{"colour.hex", "colour, value", (*draft).colourHex, false},
	{"colour.name", "colour, value", (*draft).colourName, false},
	{"colour.stock", "colour, value", (*draft).colourStock, false},
	{"colour.yarn", "colour, value", (*draft).colourYarn, false},
	{"colour.add", "colour (its name), value (its hex), key (its yarn), stock",
		(*draft).colourAdd, false},
	{"colour.drop", "colour", (*draft).colourDrop, false},
}

// entry is the path of a colour's table in the brief. A colour of the shelf
// file gets one, which wins over the shelf's.
func (d *draft) entry(name string) (string, error) {
	at, err := d.colour(name)
	if err != nil {
		return "", err
	}
	if c := d.bench.brief.Colours[at]; c.Shelf {
		return d.fromShelf(c)
	}
	return fmt.Sprintf("colour[%d]", at), nil
}

func (d *draft) fromShelf(c brief.Colour) (string, error) {
	own := 0
	for _, other := range d.bench.brief.Colours {
		if !other.Shelf {
			own++
		}
	}
	path := fmt.Sprintf("colour[%d]", own)
	yarn := d.bench.brief.Yarns[c.Yarn].Name
	keys := [][2]string{{"name", c.Name}, {"hex", c.RGB.Hex()}, {"yarn", yarn}}
	if c.OnHand != "" {
		keys = append(keys, [2]string{"on_hand", c.OnHand})
	}
	for _, k := range keys {
		if err := d.setText(path+"."+k[0], k[1]); err != nil {
			return "", err
		}
	}
	return path, nil
}

func (d *draft) colourHex(op Op) (string, error) {
	if _, err := palette.ParseHex(op.Value); err != nil {
		return "", noColour(op.Value)
	}
	path, err := d.entry(op.Colour)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: %s", op.Colour, op.Value),
		d.setText(path+".hex", strings.ToLower(op.Value))
}

func noColour(hex string) error {
	return refuse("write six hexadecimal digits after a #, as in \"#24463c\"",
		"%q is not a colour", hex)
}

func (d *draft) colourStock(op Op) (string, error) {
	path, err := d.entry(op.Colour)
	if err != nil {
		return "", err
	}
	value := strings.TrimSpace(op.Value)
	if value == "" {
		return fmt.Sprintf("%s: stock not known", op.Colour), d.set(path+".on_hand", "")
	}
	return fmt.Sprintf("%s: %s on the shelf", op.Colour, value), d.setText(path+".on_hand", value)
}

func (d *draft) colourYarn(op Op) (string, error) {
	path, err := d.entry(op.Colour)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: of %s", op.Colour, op.Value), d.setText(path+".yarn", op.Value)
}

// colourName renames a colour wherever the brief speaks of it.
func (d *draft) colourName(op Op) (string, error) {
	name := strings.TrimSpace(op.Value)
	if name == "" {
		return "", refuse("", "a colour needs a name")
	}
	path, err := d.entry(op.Colour)
	if err != nil {
		return "", err
	}
	if err := d.setText(path+".name", name); err != nil {
		return "", err
	}
	err = d.become(d.doc.SetTexts(d.mentions(op.Colour, name)))
	return fmt.Sprintf("%s is called %s", op.Colour, name), err
}

// colourKeys are keys whose texts are names of colours.
var colourKeys = []string{"ground", "hem", "separator", "colours"}

// mentions are the texts that speak of a colour, and what they are with
// another name.
func (d *draft) mentions(old, name string) (at []*tomltext.Node, with []string) {
	for _, table := range []string{"warp", "weft", "piece", "vary"} {
		d.doc.Root.Find(table).Walk(table, func(key string, n *tomltext.Node) {
			switch {
			case n.Kind != tomltext.String:
			case slices.Contains(colourKeys, key) && strings.TrimSpace(n.Text) == old:
				at, with = append(at, n), append(with, name)
			case key == "runs" && ofColour(n.Text, old):
				words := strings.Fields(n.Text)
				at, with = append(at, n), append(with, words[0]+" "+words[1]+" "+name)
			case key == "middle":
				if text, ok := brief.MiddleWith(n.Text, old, name); ok {
					at, with = append(at, n), append(with, text)
				}
			}
		})
	}
	return at, with
}

// ofColour tells whether a written run is of a colour.
func ofColour(run, colour string) bool {
	words := strings.SplitN(plainly(run), " ", 3)
	return len(words) == 3 && words[2] == colour
}

func (d *draft) colourAdd(op Op) (string, error) {
	name := strings.TrimSpace(op.Colour)
	if name == "" {
		return "", refuse("", "a colour needs a name")
	}
	if _, err := d.colour(name); err == nil {
		return "", refuse("give it another name", "there is a colour %q already", name)
	}
	rgb, err := palette.ParseHex(op.Value)
	if err != nil {
		return "", noColour(op.Value)
	}
	c := brief.Colour{Name: name, RGB: rgb, OnHand: op.Stock}
	for i, y := range d.bench.brief.Yarns {
		if y.Name == op.Key {
			c.Yarn = i
		}
	}
	_, err = d.fromShelf(c)
	return fmt.Sprintf("new colour %s", name), err
}

// colourDrop takes a colour off the shelf that nothing is woven in.
func (d *draft) colourDrop(op Op) (string, error) {
	at, err := d.colour(op.Colour)
	if err != nil {
		return "", err
	}
	if d.bench.brief.Colours[at].Shelf {
		return "", refuse("take it out of that file", "%q stands in the shelf file", op.Colour)
	}
	if uses, _ := d.mentions(op.Colour, ""); len(uses) > 0 {
		return "", refuse("take it out of the warp and the pieces first", "%q is in use", op.Colour)
	}
	err = d.become(d.doc.Drop(fmt.Sprintf("colour[%d]", at)))
	return fmt.Sprintf("%s taken off the shelf", op.Colour), err
}
