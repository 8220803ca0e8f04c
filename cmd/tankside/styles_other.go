//go:build !windows

package main

import "os"

// understandsStyles tells whether a terminal takes the control sequences of ECMA-48.
func understandsStyles(*os.File) bool { return true }
