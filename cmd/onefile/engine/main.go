//go:build js && wasm

// Command engine is what stands behind the page where all of it is one file: built for
// js/wasm, it runs in a worker of the browser and is asked by that, in the words in which
// the page asks the program on a weaver's machine.
//
// It gives the worker two functions. stripesongOpen(name, text, fromFile, left) opens a
// brief and says what is wrong with it, or null; stripesongAsk(method, path, query, body)
// promises {status, kind, body}. The worker gives it stripesongHost, see [storage].
package main

import (
	"context"
	"net/url"
	"sync"
	"syscall/js"

	"stripesong/cmd/stripesong/engine"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

var present struct {
	sync.Mutex
	engine *engine.Engine
	end    context.CancelFunc
}

func main() {
	js.Global().Set("stripesongDefault", string(brief.Default()))
	js.Global().Set("stripesongOpen", promising(func(args []js.Value) any {
		return open(args[0].String(), args[1].String(), args[2].Bool(), args[3])
	}))
	js.Global().Set("stripesongAsk", promising(func(args []js.Value) any {
		query, _ := url.ParseQuery(args[2].String()) // what can't be read is left out
		return ask(engine.Ask{Method: args[0].String(), Path: args[1].String(), Query: query,
			Body: []byte(args[3].String())})
	}))
	js.Global().Get("stripesongHost").Call("ready")
	select {}
}

// open makes a brief the present one. It gives null, or what is wrong in lines.
func open(name, text string, fromFile bool, left js.Value) any {
	bench, err := workbench.Open(context.Background(), name, []byte(text), brief.Options{})
	if err != nil {
		return err.Error()
	}
	ctx, end := context.WithCancel(context.Background())
	e := engine.New(bench, newStorage(name, text, fromFile, left), "")
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
