//go:build !linux

package main

import "testing"

func TestBareRoot(t *testing.T) {
	t.Skip("a bare root is made on Linux alone; that the command needs nothing beside it is not tested here")
}
