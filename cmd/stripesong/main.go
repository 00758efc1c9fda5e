package main

import "os"

func main() {
	settleRuntime()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, patience))
}
