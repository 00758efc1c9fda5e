package workbench

import (
	"fmt"
	"strings"
)

// Yarn is a kind of yarn as the brief has it.
type Yarn struct {
	Name    string `json:"name"`
	Count   string `json:"count"`
	Package string `json:"package"` // "" where it is not said, as is the price
	Price   string `json:"price"`
}

func (b *Bench) yarns() (all []Yarn) {
	for _, y := range b.brief.Yarns {
		at := "yarn." + y.Name + "."
		all = append(all, Yarn{y.Name, y.Count, b.written(at + "package"), b.written(at + "price")})
	}
	return all
}

var yarnOps = []Operation{
	{"yarn.set", "colour (the yarn's name), key (count, package or price), value", (*draft).yarnSet,
		false},
}

// yarnSet says something of a kind of yarn; one that is not there is put there.
func (d *draft) yarnSet(op Op) (string, error) {
	name, value := strings.TrimSpace(op.Colour), strings.TrimSpace(op.Value)
	if !bare(name) {
		return "", refuse("use letters without accents, digits, - and _",
			"%q can't be the name of a yarn", name)
	}
	switch op.Key {
	case "count", "package", "price":
	default:
		return "", refuse("", "a yarn has no %q", op.Key)
	}
	key := "yarn." + name + "." + op.Key
	what := fmt.Sprintf("%s: %s %s", name, op.Key, value)
	if value == "" {
		return fmt.Sprintf("%s: %s not said", name, op.Key), d.set(key, "")
	}
	return what, d.setText(key, value)
}

// bare tells whether a name stands in TOML as a key without quotes.
func bare(name string) bool {
	const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-"
	return name != "" && strings.Trim(name, letters) == ""
}
