package packet

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"sync"

	"stripesong/sequence/plan"
)

//go:embed page
var files embed.FS

// page is parsed when the first packet is written: a program that writes none
// does not pay for it.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(files, "page/*.html"))
})

// Write writes the packet of a plan.
func Write(w io.Writer, p *plan.Plan) error {
	v, err := newView(p)
	if err != nil {
		return err
	}
	return page().ExecuteTemplate(w, "packet.html", v)
}

// view is everything the page shows, ready to be put down.
type view struct {
	Title, Lead string
	Style       template.CSS
	Script      template.JS
	Policy      string // what the page may load: nothing
	WovenOf     []wovenOf
	Warnings    []string
	Remarks     []string
	Shopping    shopping
	Winding     winding
	Loom        loom
	Before      before
	Sample      *sample // nil where none is woven
	Pieces      []piece
	Finishing   finishing
	Measures    []measureGroup
}

func newView(p *plan.Plan) (*view, error) {
	m := newMaker(p)
	v := &view{Title: seen(p.Title), Lead: m.lead(), WovenOf: m.wovenOf(), Shopping: m.shopping(), Before: m.before(), Sample: m.sample(),
		Finishing: m.finishing(), Measures: m.measures()}
	style, script := asset("page/style.css"), asset("page/script.js")
	v.Style, v.Script = template.CSS(style+m.colourStyles()), template.JS(script)
	hash := sha256.Sum256([]byte(script))
	v.Policy = "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-" + base64.StdEncoding.EncodeToString(hash[:]) + "'"
	v.Warnings, v.Remarks = notes(p, plan.Warning), notes(p, plan.Remark)
	v.Winding, v.Loom = m.winding(), m.loom()
	v.Pieces = m.pieces()
	return v, m.err
}

// asset is a file of the page, whose text stands in it as it is.
func asset(name string) string {
	text, err := files.ReadFile(name)
	if err != nil {
		panic(err) // it is part of the program
	}
	return string(text)
}

func notes(p *plan.Plan, level string) (words []string) {
	for _, n := range p.NotesOf(level) {
		words = append(words, seen(n.Message))
	}
	return words
}
