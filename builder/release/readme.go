package main

// deskScript is what is opened by a double click on macOS, where one on the program itself opens a terminal that waits for a command.
const deskScript = "tankside-desk.command"

const deskScriptText = "#!/bin/sh\ncd \"$(dirname \"$0\")\" && exec ./tankside desk\n"

// readme is the README of an archive, two lines for somebody who never saw a terminal, with the line ends of the system.
func readme(t target) string {
	opens, end := t.program(), "\n"
	switch t.system {
	case "darwin":
		opens = deskScript
	case "windows":
		end = "\r\n"
	}
	return "Unpack this archive into a folder of your own and double-click " + opens + ": your browser opens a desk, where a shop manual is begun by questions, read, corrected and published." + end +
		"If nothing opens, or your computer stops a program that it does not know, show this to whoever looks after it: “" + t.program() +
		" desk” in a terminal does the same, and SHA256SUMS, beside the archive where you have it from, tells whether the archive is whole." + end
}
