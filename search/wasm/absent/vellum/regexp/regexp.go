// Package regexp stands in for automata of regular expressions. None is made
// in the browser; who asks for one is told so.
package regexp

import (
	"errors"
	"regexp/syntax"
)

// DefaultLimit bounds the memory of an automaton.
const DefaultLimit uint = 0

// Regexp is never made.
type Regexp struct{}

func NewParsedWithLimit(string, *syntax.Regexp, uint) (*Regexp, error) {
	return nil, errors.New("the browser build has no automata for regular expressions")
}

func (*Regexp) Start() int               { return 0 }
func (*Regexp) IsMatch(int) bool         { return false }
func (*Regexp) CanMatch(int) bool        { return false }
func (*Regexp) WillAlwaysMatch(int) bool { return false }
func (*Regexp) Accept(int, byte) int     { return 0 }
func (*Regexp) MatchesRegex(string) bool { return false }
