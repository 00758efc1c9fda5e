// Command onefile puts the page, and the program behind it as js/wasm, together into one
// file that opens from a disk without a network. It is run where releases are made:
//
//	onefile -wasm ENGINE -exec WASM_EXEC -host HOST -page PAGE >stripesong.html
//
// ENGINE is ./cmd/onefile/engine built for js/wasm, WASM_EXEC the script of that name
// which comes with Go, HOST and PAGE are ./cmd/onefile/app/main.js and the page's own
// modules, each bundled into one script. The same files give the same bytes.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	var from parts
	flag.StringVar(&from.wasm, "wasm", "", "the engine, built for js/wasm")
	flag.StringVar(&from.exec, "exec", "", "wasm_exec.js, which comes with Go")
	flag.StringVar(&from.worker, "worker", "", "the worker's script")
	flag.StringVar(&from.host, "host", "", "the script that stands in for the server")
	flag.StringVar(&from.page, "page", "", "the page's script")
	flag.Parse()
	text, err := from.together()
	if err == nil {
		_, err = os.Stdout.Write(text)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "onefile:", err)
		os.Exit(2)
	}
}
