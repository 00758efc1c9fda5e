//go:build js && wasm

package main

import (
	"context"
	"errors"
	"syscall/js"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// storage has a page's work go where the browser can put it. The worker's stripesongHost
// has for it, each promising its answer or throwing why not; n is the brief's number:
//
//	read(n)               the text of the file that was opened; null where it is gone
//	save(n, text)         writes it there, or gives it as a download where the browser can't
//	                      write; says what to call that
//	become(n, name, text) gives a brief that came from no file as one, which it is from then
//	                      on; says what to call that
//	give(name, bytes)     gives a file as a download; says what to call that
//	keep(n, text, base)   keeps what is not saved until the next start; text null for nothing
//	forget(n, id)         takes one of these away
//
// Beside these, opening(what) tells what is being worked on while a brief is opened.
// Texts are told apart by themselves, where the command takes their sums.
type storage struct {
	host     js.Value
	number   int
	name     string
	fromFile bool
	origins  engine.Origins
	left     []engine.Left
	bases    map[int]string
}

func newStorage(number int, name, text string, fromFile bool, left js.Value) *storage {
	d := &storage{host: js.Global().Get("stripesongHost"), number: number, name: name,
		fromFile: fromFile, origins: engine.NewOrigins(text), bases: map[int]string{}}
	for i := range left.Length() {
		l := left.Index(i)
		id := l.Get("id").Int()
		d.bases[id] = l.Get("base").String()
		d.left = append(d.left, engine.Left{ID: id, Says: says(l),
			Text: []byte(l.Get("text").String())})
	}
	return d
}

// says is what the page says of something that was left: title, file and when.
func says(l js.Value) string {
	name, text := l.Get("name").String(), l.Get("text").String()
	what := name
	if b, err := brief.Parse(name, []byte(text), brief.Options{}); err == nil {
		what = "“" + b.Title + "”, " + name
	}
	how := ", left unsaved on "
	if l.Get("saved").Truthy() {
		how = ", saved last on "
	}
	return screen.Visible(what + how + l.Get("when").String() + ", kept in this browser")
}

// ask has the host do something and waits for it.
func (d *storage) ask(what string, args ...any) (js.Value, error) {
	type outcome struct {
		value js.Value
		err   error
	}
	done := make(chan outcome, 1)
	then := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- outcome{value: args[0]}
		return nil
	})
	defer then.Release()
	failed := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- outcome{err: errors.New(args[0].Call("toString").String())}
		return nil
	})
	defer failed.Release()
	d.host.Call(what, args...).Call("then", then, failed)
	o := <-done
	return o.value, o.err
}

func bytesOf(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// file is the text of the file as it is now, or [engine.NoFile].
func (d *storage) file() (string, error) {
	v, err := d.ask("read", d.number)
	switch {
	case err != nil:
		return "", err
	case v.IsNull():
		return engine.NoFile, nil
	}
	return v.String(), nil
}

func (d *storage) FromFile() bool { return d.fromFile }

func (d *storage) Save(text []byte, origin int, over bool) (name, before string, err error) {
	if !d.fromFile {
		return "", "", brief.Problems{{What: "this brief came from no file",
			Hint: "save a copy: that makes a file of your own"}}
	}
	now, err := d.file()
	if err != nil {
		return "", "", err
	}
	why := d.origins.Conflict(origin, now, string(text), over)
	if why != "" {
		file := []byte(now)
		if now == engine.NoFile {
			file = nil
		}
		return "", "", &engine.Conflict{Why: why, File: file}
	}
	v, err := d.ask("save", d.number, string(text))
	if err != nil {
		return "", "", err
	}
	d.origins.Saved(origin, string(text))
	return screen.Visible(v.String()), "", nil
}

func (d *storage) SaveAs(title string, text []byte) (string, error) {
	name := folder.Name(title) + ".toml"
	if !d.fromFile {
		return d.become(name, string(text))
	}
	v, err := d.ask("give", name, bytesOf(text))
	if err != nil {
		return "", err
	}
	return screen.Visible(v.String()), nil
}

// become gives a brief that came from no file as a file, which is its own from then on.
func (d *storage) become(name, text string) (string, error) {
	v, err := d.ask("become", d.number, name, text)
	if err != nil {
		return "", err
	}
	d.fromFile, d.name = true, name
	d.origins.Saved(d.origins.Holds(), text)
	return screen.Visible(v.String()), nil
}

func (d *storage) Called() string { return screen.Visible(d.name) }

func (d *storage) Reread() ([]byte, int, error) {
	if !d.fromFile {
		return nil, 0, brief.Problems{{What: "this brief came from no file"}}
	}
	now, err := d.file()
	switch {
	case err != nil:
		return nil, 0, err
	case now == engine.NoFile:
		return nil, 0, brief.Problems{{What: "the file is gone",
			Hint: "save a copy, which makes another"}}
	}
	return []byte(now), d.origins.File(now), nil
}

func (d *storage) Known(origin int) { d.origins.Known(origin) }

func (d *storage) Keep(unsaved []byte, origin int) (where string, err error) {
	text := js.Null()
	if unsaved != nil {
		text = js.ValueOf(string(unsaved))
	}
	v, err := d.ask("keep", d.number, text, d.origins.Base(origin))
	if err != nil || unsaved == nil {
		return "", err
	}
	return v.String(), nil
}

func (d *storage) Left() []engine.Left { return d.left }

func (d *storage) TakenUp(id int) int {
	for _, l := range d.left {
		if l.ID == id {
			return d.origins.Earlier(d.bases[id], string(l.Text))
		}
	}
	return d.origins.Holds()
}

func (d *storage) Forget(id int) error {
	if _, err := d.ask("forget", d.number, id); err != nil {
		return err
	}
	for i, l := range d.left {
		if l.ID == id {
			d.left = append(d.left[:i:i], d.left[i+1:]...)
			break
		}
	}
	return nil
}

// Publish gives the plan's folder as one file.
func (d *storage) Publish(ctx context.Context, p *plan.Plan) (string, error) {
	name := folder.Name(p.Title) + ".zip"
	all, err := engine.Zip(ctx, p, name)
	if err != nil {
		return "", err
	}
	v, err := d.ask("give", name, bytesOf(all))
	if err != nil {
		return "", err
	}
	return screen.Visible(v.String()), nil
}
