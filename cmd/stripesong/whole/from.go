package whole

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// fromBegins begins the first line of a list, which says what a folder was made from.
const fromBegins = "# made from "

// fromLine is the first line of a list, nothing for ""; "sha256sum -c" passes it by.
func fromLine(from string) []byte {
	if from == "" {
		return nil
	}
	return fmt.Appendf(nil, "%s%s\n", fromBegins, strconv.Quote(from))
}

// From is what a folder was made from, as [Folder] was told; "" where that is not known.
func From(dir string) string {
	f, err := os.Open(filepath.Join(dir, listName))
	if err != nil {
		return ""
	}
	defer f.Close()
	line, _ := bufio.NewReader(f).ReadString('\n')
	quoted, ok := strings.CutPrefix(strings.TrimSpace(line), fromBegins)
	from, err := strconv.Unquote(quoted)
	if !ok || err != nil {
		return ""
	}
	return from
}
