// Package vellum stands before the real package in the browser build, which
// the module file has under another name: all that bleve and zap use of it is
// the real one's. What is kept out are its two neighbours here, levenshtein and
// regexp. scorch makes two automata for typing errors as it is loaded, whether
// they are used or not, which in a browser takes longer than all else together
// until the first question can be asked; this search finds typing errors in a
// list of its own.
package vellum

import (
	"io"

	whole "whole.invalid/vellum"
)

type (
	FST            = whole.FST
	Reader         = whole.Reader
	Builder        = whole.Builder
	BuilderOpts    = whole.BuilderOpts
	Iterator       = whole.Iterator
	FuzzyIterator  = whole.FuzzyIterator
	Automaton      = whole.Automaton
	FuzzyAutomaton = whole.FuzzyAutomaton
)

// ErrIteratorDone is the real one: it is compared with what iterators return.
var ErrIteratorDone = whole.ErrIteratorDone

// New begins to write a transducer.
func New(w io.Writer, opts *BuilderOpts) (*Builder, error) { return whole.New(w, opts) }

// Load reads a transducer.
func Load(data []byte) (*FST, error) { return whole.Load(data) }
