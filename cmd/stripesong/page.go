package main

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/page"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/unsaved"
	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

var pageCommand = &command{
	name:    "page",
	operand: "BRIEF",
	line:    "work on a brief in the browser, where every change shows at once",
	about: `Opens a brief in the browser. Change a colour, drag a yarn on to a
stripe, move an edge: cloth, contrast and yarn follow at once, and every step can be
undone. The brief is not written until you save; the first time, the brief as it was
is kept beside it. Unsaved work is kept as you go, and offered the next time. BRIEF
is a text file, or - for standard input; without it the page shows the built-in
brief.
The page uses no network, and nobody else can open it: its address is secret, and
--open passes it to the browser in a file that only you can read. Ctrl-C ends it.`,
	example: example{"stripesong page towels.toml --open", "start it, and open the browser"},
	exits: [3]string{"the page was ended", "",
		"a mistake, or the port is taken"},
	prepare: func(f *flags) work {
		p := &serving{port: value{kind: "N", check: aPort},
			oneFile: value{kind: "FILE", check: anyText}}
		f.group("Flags", "")
		f.add("port", "port on 127.0.0.1 (default: the brief's own, or a free one)", &p.port)
		f.addYes("open", "open the browser too", &p.open)
		f.add("one-file", "write page and program as one file, to give away", &p.oneFile)
		return p.run
	},
}

// serving is one run of page.
type serving struct {
	port    value
	open    yes
	oneFile value
}

func aPort(text string) error {
	if err := wholeNumber(text); err != nil {
		return err
	}
	if n, err := strconv.Atoi(text); err != nil || n < 1 || n > 65535 {
		return mistake{what: fmt.Sprintf("%s is not a port", text),
			hint: "a port is a number from 1 to 65535, as in 8080"}
	}
	return nil
}

func (p *serving) run(w *world, operand string) error {
	ctx, stop := interruptible()
	defer stop()
	if p.oneFile.text != "" {
		return p.writeOneFile(ctx, w, operand, builtOneFile)
	}
	one, err := newPage(ctx, w, operand)
	if err != nil {
		return err
	}
	address, err := p.listen(one)
	if err != nil {
		return err
	}
	fmt.Fprint(w.out, one.storage.keeping.greeting())
	fmt.Fprintf(w.out, "%s is open at\n\n  %s\n\nfor this machine only; Ctrl-C ends it\n",
		screen.Visible(one.source.name), address)
	if err := w.out.Flush(); err != nil {
		return err
	}
	places := w.openingPlaces()
	clearOpenings(places)
	if p.open {
		defer one.openBrowser(ctx, places)()
	}
	return one.serve(ctx)
}

// listen takes the port that is asked for, or else the brief's own, or any free one.
func (p *serving) listen(one *onePage) (address string, err error) {
	if !p.port.given {
		if address, err = one.server.Listen(ownPort(one.source)); err == nil {
			return address, nil
		}
	}
	port, _ := strconv.Atoi(p.port.text) // checked; "" is any free one
	if address, err = one.server.Listen(port); err != nil {
		return "", mistake{what: fmt.Sprintf("can't answer at port %d: %v", port, err), cause: err,
			hint: "leave --port out for a free one"}
	}
	return address, nil
}

// ownPort is a port of a brief, the same each time: a browser keeps the ticks of a packet
// for the port they were made at. It is one of those for private use, 49152 to 65535
// (RFC 6335, 2011, section 6).
func ownPort(s *source) int {
	name, err := filepath.Abs(s.name)
	if err != nil || !s.fromFile() {
		name = s.name
	}
	sum := fnv.New32a()
	io.WriteString(sum, name)
	return 49152 + int(sum.Sum32()%(65536-49152))
}

// onePage is the page of one brief.
type onePage struct {
	w       *world
	source  *source
	storage *storage
	server  *page.Server
}

// newPage reads a brief and makes its page, which does not listen yet.
func newPage(ctx context.Context, w *world, operand string) (*onePage, error) {
	s, err := w.open(operand)
	if err != nil {
		return nil, err
	}
	shown := w.progress()
	defer shown.stop()
	shown.stage("working out the plan")
	bench, err := workbench.Open(ctx, s.name, s.text, brief.Options{Shelf: onceOnly(s.shelf)})
	if err != nil {
		return nil, s.named(interrupted(err))
	}
	d := newStorage(s, w.newKeeping(s), w.say)
	server, err := page.New(engine.New(bench, d, w.typed("page")))
	return &onePage{w: w, source: s, storage: d, server: server}, err
}

// typed is a command with its arguments as they were typed, for a shell.
func (w *world) typed(command string) string {
	words := []string{"stripesong", command}
	for _, arg := range w.args {
		words = append(words, shellWord(arg))
	}
	return screen.Visible(strings.Join(words, " "))
}

// openBrowser starts a browser with a file that leads to the page once. It gives
// what takes the file away, if it has not been used by then.
func (o *onePage) openBrowser(ctx context.Context, places []string) (end func()) {
	leads, err := newOpening(o.server.Once(), places)
	if err == nil {
		if err = startBrowser(leads.url()); err != nil {
			leads.close()
		}
	}
	if err != nil {
		o.server.Forget()
		o.w.errorLine(fmt.Sprintf("can't open the browser: %s", plainly(err)))
		o.w.hintLine("open the address above by hand")
		return func() {}
	}
	o.w.say("the browser should open it now; if not, open the address by hand")
	end = sync.OnceFunc(leads.close)
	go func() {
		select {
		case <-o.server.Spent():
			end()
		case <-ctx.Done():
		}
	}()
	return end
}

// say prints a line while the page is served.
func (w *world) say(line string) {
	fmt.Fprintln(w.out, line)
	w.out.Flush()
}

// serve answers until the context ends, and says where what is unsaved then is.
func (o *onePage) serve(ctx context.Context) error {
	err := o.server.Serve(ctx)
	defer o.storage.keeping.end()
	text, origin := o.server.Unsaved()
	where, failed := o.storage.Keep(text, origin)
	switch {
	case failed != nil:
		err = errors.Join(err, fmt.Errorf("what was not saved is lost: %w", failed))
	case text != nil:
		fmt.Fprintf(o.w.out, "what was not saved is kept in %s; ", where)
		fmt.Fprintln(o.w.out, "the page offers it when it opens the brief again")
	}
	return err
}

// createFree writes a new file, stem.toml, or with a number where there is
// one of that name.
func createFree(dir, stem string, text []byte) (string, error) {
	return createFreeAs(dir, stem, text, 0o666)
}

// createFreeAs is createFree with the mode of the file.
func createFreeAs(dir, stem string, text []byte, mode fs.FileMode) (string, error) {
	for n := 1; ; n++ {
		name := beside(dir, unsaved.Numbered(stem, n))
		err := whole.CreateAs(name, text, mode)
		switch {
		case err == nil:
			return name, nil
		case !errors.Is(err, fs.ErrExist) || n == 1000:
			return "", mistake{what: fmt.Sprintf("can't write %q: %s", name, plainly(err)),
				cause: err,
				hint:  "nothing was changed; see that the folder has room and may be written to"}
		}
	}
}

// onceOnly reads each shelf file once: the page works on what was there when
// it was opened.
func onceOnly(read func(string) ([]byte, error)) func(string) ([]byte, error) {
	type answer struct {
		text []byte
		err  error
	}
	known := map[string]answer{}
	return func(name string) ([]byte, error) {
		a, ok := known[name]
		if !ok {
			a.text, a.err = read(name)
			known[name] = a
		}
		return a.text, a.err
	}
}
