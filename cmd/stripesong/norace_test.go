//go:build !race

package main

// raceEnabled tells whether times mean nothing.
const raceEnabled = false
