//go:build js && wasm

// Command engine is what stands behind the page where all of it is one file: built for
// js/wasm, it runs in a worker of the browser and is asked by that, in the words in which
// the page asks the program on a weaver's machine.
//
// It gives the worker three functions. stripesongOpen(number, name, text, fromFile, left)
// opens a brief and says what is wrong with it, or null, and stripesongStop() stops that;
// stripesongAsk(method, path, query, body) promises {status, kind, body}. The worker gives it
// stripesongHost, see [storage].
package main

import (
	"context"
	"errors"
	"net/url"
	"sync"
	"syscall/js"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

var present struct {
	sync.Mutex
	engine *engine.Engine
	end    context.CancelFunc
	stop   context.CancelFunc // what is being opened
}

func main() {
	js.Global().Set("stripesongDefault", string(brief.Default()))
	js.Global().Set("stripesongOpen", promising(func(args []js.Value) any {
		return open(args[0].Int(), args[1].String(), args[2].String(), args[3].Bool(), args[4])
	}))
	js.Global().Set("stripesongStop", js.FuncOf(func(js.Value, []js.Value) any {
		stopOpening()
		return nil
	}))
	js.Global().Set("stripesongAsk", promising(func(args []js.Value) any {
		query, _ := url.ParseQuery(args[2].String()) // what can't be read is left out
		return ask(engine.Ask{Method: args[0].String(), Path: args[1].String(), Query: query,
			Body: []byte(args[3].String())})
	}))
	js.Global().Get("stripesongHost").Call("ready")
	select {}
}

// open makes a brief the present one, unless it is stopped before; it is known to the
// browser by its number. It gives null, or what is wrong: {stopped, problems: [{line,
// what}], more}.
func open(number int, name, text string, fromFile bool, left js.Value) any {
	under, stop := context.WithCancel(context.Background())
	defer stop()
	present.Lock()
	present.stop = stop
	present.Unlock()
	tellOf(name, text)
	bench, err := workbench.Open(yielding(under), name, []byte(text), brief.Options{})
	if err != nil {
		return wrong(err, under.Err() != nil)
	}
	ctx, end := context.WithCancel(context.Background())
	e := engine.New(bench, newStorage(number, name, text, fromFile, left), "")
	e.LiveUntil(ctx)
	e.Yielding = yielding
	present.Lock()
	defer present.Unlock()
	if present.end != nil {
		present.end()
	}
	present.engine, present.end = e, end
	return nil
}

// tellOf tells the browser what opening a brief takes, where it may take long.
func tellOf(name, text string) {
	b, err := brief.Parse(name, []byte(text), brief.Options{})
	if err == nil && b.Vary != nil {
		js.Global().Get("stripesongHost").Call("opening", engine.Choosing(b.Vary.Candidates))
	}
}

// stopOpening stops the brief that is being opened, if one is.
func stopOpening() {
	present.Lock()
	defer present.Unlock()
	if present.stop != nil {
		present.stop()
	}
}

// mostWrong is how many problems of a brief are told, as many as the command prints.
const mostWrong = 8

func wrong(err error, stopped bool) any {
	problems := brief.Problems{{What: err.Error()}}
	errors.As(err, &problems)
	few := problems[:min(len(problems), mostWrong)]
	told := make([]any, len(few))
	for i, p := range few {
		what := p.What
		if p.Key != "" {
			what = p.Key + ": " + what
		}
		told[i] = map[string]any{"line": p.Line, "what": screen.Short(screen.Visible(what))}
	}
	return map[string]any{"stopped": stopped, "problems": told, "more": len(problems) - len(few)}
}

func ask(a engine.Ask) any {
	present.Lock()
	e := present.engine
	present.Unlock()
	answer := e.Answer(a)
	body := js.Global().Get("Uint8Array").New(len(answer.Body))
	js.CopyBytesToJS(body, answer.Body)
	return map[string]any{"status": answer.Status, "kind": answer.Kind, "body": body}
}

// promising is a function of JavaScript that answers with a promise, as what it does may
// wait for the browser.
func promising(do func(args []js.Value) any) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		var begin js.Func
		begin = js.FuncOf(func(_ js.Value, promise []js.Value) any {
			begin.Release()
			go func() { promise[0].Invoke(do(args)) }()
			return nil
		})
		return js.Global().Get("Promise").New(begin)
	})
}
