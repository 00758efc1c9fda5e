package packet

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"strings"
	"sync"
	"unicode/utf8"

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
	Set         string // what all ticks of the set are kept under
	Style       template.CSS
	Script      template.JS
	Policy      string // what the page may load: nothing
	WovenOf     []wovenOf
	RunsOn      bool     // the first page has more than a page
	Warnings    []string // what would spoil the work
	Looks       []string // what may disappoint: a pattern that hardly shows, pieces alike
	Remarks     []string
	Shopping    shopping
	Winding     winding
	Loom        loom
	Before      before
	Parts       parts
	OnLoom      *onLoom // nil where nothing is woven yet
	Sample      *sample // nil where none is woven
	Pieces      []piece
	Finishing   finishing
	Measures    measuring
}

func newView(p *plan.Plan) (*view, error) {
	m := newMaker(p)
	v := &view{Title: seen(p.Title), Lead: m.lead(), Set: m.set(),
		WovenOf: m.wovenOf(), Shopping: m.shopping(),
		Before: m.before(), Sample: m.sample(),
		Finishing: m.finishing(), Measures: m.measuring(), Parts: m.parts(), OnLoom: m.onLoom()}
	style, script := asset("page/style.css"), asset("page/script.js")
	v.Style, v.Script = template.CSS(style+m.colourStyles()), template.JS(script)
	hash := sha256.Sum256([]byte(script))
	v.Policy = "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-" +
		base64.StdEncoding.EncodeToString(hash[:]) + "'"
	v.Warnings, v.Looks = warnings(p)
	v.Remarks = notes(p.NotesOf(plan.Remark))
	v.Loom = m.loom()
	if v.OnLoom == nil {
		v.Winding = m.winding()
	}
	v.Pieces = m.pieces()
	v.RunsOn = v.headerMM() > pageMM
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

// headerMM is about how high the first page stands on paper, rather more than less.
func (v *view) headerMM() float64 {
	const titleMM, partMM, rowMM, lineMM, chipsMM, noteMM, headingMM = 34, 4.6, 2, 4.6, 5.2, 4.6, 14
	lines := func(words string, across int) float64 {
		return float64(1 + utf8.RuneCountInString(words)/across)
	}
	high := titleMM + float64(partMM*float64(4+len(v.Pieces)/8))
	for _, row := range v.WovenOf {
		high += rowMM + float64(lineMM*lines(row.Words, 88))
		if row.Chips != nil {
			high += float64(chipsMM * float64(1+len(row.Chips)/5))
		}
	}
	for _, notes := range [][]string{v.Warnings, v.Looks, v.Remarks} {
		if notes != nil {
			high += headingMM
		}
		for _, note := range notes {
			high += float64(noteMM * lines(note, 98))
		}
	}
	return high
}

// warnings are the warnings of what would spoil the work, and those of looks alone.
func warnings(p *plan.Plan) (work, looks []string) {
	var ofWork, ofLooks []plan.Note
	for _, n := range p.NotesOf(plan.Warning) {
		if strings.HasPrefix(n.Code, "contrast-") || n.Code == "set-alike" {
			ofLooks = append(ofLooks, n)
		} else {
			ofWork = append(ofWork, n)
		}
	}
	return notes(ofWork), notes(ofLooks)
}

func notes(all []plan.Note) (words []string) {
	for _, n := range all {
		words = append(words, seen(n.Message))
	}
	return words
}
