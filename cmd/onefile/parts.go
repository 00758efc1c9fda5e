package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/ascii85"
	"encoding/base64"
	"fmt"
	"os"
	"regexp"
	"strings"

	"stripesong/cmd/stripesong/page"
)

// parts are the files that become one.
type parts struct{ wasm, exec, worker, host, page string }

// tooOld says in a browser that can't run the file that it can't. It is written for any
// browser there is.
const tooOld = `if (!window.WebAssembly || !window.DecompressionStream || !window.Worker || ` +
	`!("popover" in HTMLElement.prototype)) ` +
	`document.write("<p>This browser is too old for stripesong: it takes Chromium or a browser ` +
	`made from it from version 114 on, Firefox from 125, Safari from 17.<\/p>");`

// fromServer are the places of the page that name what the server has.
var fromServer = regexp.MustCompile(
	`(?m)^<(link|script)[^>]* (href|src)="[^"]*"[^>]*>(</script>)?\n`)

// together is the one file.
func (p parts) together() ([]byte, error) {
	var read reader
	wasm, exec, worker := read.file(p.wasm), read.file(p.exec), read.file(p.worker)
	host, script := read.file(p.host), read.file(p.page)
	index, style, icon := read.own("index.html"), read.own("style.css"), read.own("icon.svg")
	if read.err != nil {
		return nil, read.err
	}
	packed, err := packed(wasm)
	if err != nil {
		return nil, err
	}
	bare := fromServer.ReplaceAll(index, nil)
	head, rest, found := bytes.Cut(bare, []byte("<title>"))
	body, end, closed := bytes.Cut(rest, []byte("</body>"))
	if !found || !closed || len(bare) == len(index) {
		return nil, fmt.Errorf("index.html is not as this program knows it")
	}
	scripts := []string{tooOld, string(host), string(script)}
	var b bytes.Buffer
	b.Write(head)
	fmt.Fprintf(&b, "<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">\n",
		policy(scripts, string(style)))
	fmt.Fprintf(&b, "<link rel=\"icon\" href=\"data:image/svg+xml;base64,%s\">\n",
		base64.StdEncoding.EncodeToString(icon))
	fmt.Fprintf(&b, "<style>%s</style>\n<title>", style)
	b.Write(body)
	fmt.Fprintf(&b, "<script>%s</script>\n", tooOld)
	fmt.Fprintf(&b, "%s%s</script>\n", page.BriefStart, "null")
	fmt.Fprintf(&b, "<script type=\"text/plain\" id=\"worker\">%s\n%s</script>\n", exec, worker)
	fmt.Fprintf(&b, "<script type=\"text/plain\" id=\"program\">%s</script>\n", packed)
	for _, s := range scripts[1:] {
		fmt.Fprintf(&b, "<script>%s</script>\n", s)
	}
	b.WriteString("</body>")
	b.Write(end)
	return b.Bytes(), nil
}

// policy lets the file run what it brings along and nothing else, and fetch nothing.
func policy(scripts []string, style string) string {
	var hashes []string
	for _, s := range scripts {
		hashes = append(hashes, hash(s))
	}
	return "default-src 'none'; script-src 'wasm-unsafe-eval' blob: " + strings.Join(hashes, " ") +
		"; worker-src blob:; style-src " + hash(style) +
		"; img-src data: blob:; base-uri 'none'; form-action 'none'"
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// packed is the engine as gzip, in Ascii85 (five characters for four bytes, where base64
// takes five and a third) with v in the place of <, which could end the element it is in;
// without a name or a time, so that the same engine gives the same text.
func packed(wasm []byte) (string, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return "", err
	}
	if _, err := w.Write(wasm); err != nil {
		return "", err
	}
	if err := w.Close(); err != nil {
		return "", err
	}
	text := make([]byte, ascii85.MaxEncodedLen(b.Len()))
	text = text[:ascii85.Encode(text, b.Bytes())]
	return strings.ReplaceAll(string(text), "<", "v"), nil
}

// reader reads files until one fails, or holds what would end the element it is put into.
type reader struct{ err error }

func (r *reader) file(name string) []byte {
	if r.err != nil {
		return nil
	}
	text, err := os.ReadFile(name)
	return r.checked(name, text, err)
}

func (r *reader) own(name string) []byte {
	if r.err != nil {
		return nil
	}
	text, err := page.File(name)
	return r.checked(name, text, err)
}

func (r *reader) checked(name string, text []byte, err error) []byte {
	text = bytes.TrimRight(text, "\n")
	ends := regexp.MustCompile(`(?i)</(script|style)|<!--`).Find(text)
	switch {
	case err != nil:
		r.err = err
	case ends != nil && (strings.HasSuffix(name, ".js") || strings.HasSuffix(name, ".css")):
		r.err = fmt.Errorf("%s holds %q, which can't stand within a page", name, ends)
	}
	return text
}
