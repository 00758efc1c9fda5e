package main

import "os"

func main() {
	thrifty()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, patience))
}
