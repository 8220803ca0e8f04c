//go:build !windows

package main

// ownConsole tells whether the console was made for this program alone. Only Windows makes one for a program that is opened by a double click.
func ownConsole() bool { return false }
