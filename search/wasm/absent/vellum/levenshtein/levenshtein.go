// Package levenshtein stands in for automata that accept typing errors. None
// is made in the browser; who asks for one is told so.
package levenshtein

import "errors"

// LevenshteinAutomatonBuilder makes nothing.
type LevenshteinAutomatonBuilder struct{}

func NewLevenshteinAutomatonBuilder(uint8, bool) (*LevenshteinAutomatonBuilder, error) {
	return &LevenshteinAutomatonBuilder{}, nil
}

func (*LevenshteinAutomatonBuilder) BuildDfa(string, uint8) (*DFA, error) {
	return nil, errors.New("the browser build has no automata for typing errors")
}

// DFA is never made.
type DFA struct{}

func (*DFA) Start() int                            { return 0 }
func (*DFA) IsMatch(int) bool                      { return false }
func (*DFA) CanMatch(int) bool                     { return false }
func (*DFA) WillAlwaysMatch(int) bool              { return false }
func (*DFA) Accept(int, byte) int                  { return 0 }
func (*DFA) EditDistance(int) uint8                { return 0 }
func (*DFA) MatchAndDistance(string) (bool, uint8) { return false, 0 }
