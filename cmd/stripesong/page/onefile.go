package page

import (
	"bytes"
	"encoding/json"
	"errors"
)

// BriefStart begins the place of the brief in the page as one file; see [OnBrief].
const BriefStart = `<script type="application/json" id="brief">`

// File is one of the page's own files: index.html, style.css or icon.svg.
func File(name string) ([]byte, error) { return files.ReadFile(name) }

// OnBrief is the page as one file, to open on a brief of that name. It fails where
// oneFile is not such a page.
func OnBrief(oneFile []byte, name string, text []byte) ([]byte, error) {
	before, rest, found := bytes.Cut(oneFile, []byte(BriefStart))
	_, after, closed := bytes.Cut(rest, []byte("</script>"))
	if !found || !closed {
		return nil, errors.New("this is not the page as one file")
	}
	// JSON in Go writes < as an escape, so that no text ends the element.
	brief, err := json.Marshal(map[string]string{"name": name, "text": string(text)})
	if err != nil {
		return nil, err
	}
	return bytes.Join([][]byte{before, []byte(BriefStart), brief, []byte("</script>"), after}, nil),
		nil
}
