// Package expression has regular expressions that are compiled when they are first asked. A program that compiles the expressions of all its commands
// before it begins keeps everybody waiting for those that one command has use for.
package expression

import (
	"regexp"
	"slices"
	"sync"
)

// Expression is a regular expression of package regexp; its methods are those of the same names. It is safe for use from several goroutines.
type Expression struct {
	text     string
	compiled func() *regexp.Regexp
}

// all are those that there are: packages make theirs when the program begins.
var all struct {
	sync.Mutex
	list []*Expression
}

// Of gives an expression in the syntax of package regexp. One that cannot be compiled panics where it is first asked, so it is for variables of packages: a test
// of the command compiles all of them.
func Of(text string) *Expression {
	e := &Expression{text, sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })}
	all.Lock()
	defer all.Unlock()
	all.list = append(all.list, e)
	return e
}

// All gives all that were made.
func All() []*Expression {
	all.Lock()
	defer all.Unlock()
	return slices.Clone(all.list)
}

func (e *Expression) String() string                       { return e.text }
func (e *Expression) MatchString(s string) bool            { return e.compiled().MatchString(s) }
func (e *Expression) Match(b []byte) bool                  { return e.compiled().Match(b) }
func (e *Expression) FindString(s string) string           { return e.compiled().FindString(s) }
func (e *Expression) FindStringIndex(s string) []int       { return e.compiled().FindStringIndex(s) }
func (e *Expression) FindStringSubmatch(s string) []string { return e.compiled().FindStringSubmatch(s) }
func (e *Expression) FindStringSubmatchIndex(s string) []int {
	return e.compiled().FindStringSubmatchIndex(s)
}
func (e *Expression) FindAllString(s string, n int) []string { return e.compiled().FindAllString(s, n) }
func (e *Expression) FindAllStringIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringIndex(s, n)
}
func (e *Expression) FindAllStringSubmatch(s string, n int) [][]string {
	return e.compiled().FindAllStringSubmatch(s, n)
}
func (e *Expression) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return e.compiled().FindAllStringSubmatchIndex(s, n)
}
func (e *Expression) FindSubmatch(b []byte) [][]byte   { return e.compiled().FindSubmatch(b) }
func (e *Expression) FindSubmatchIndex(b []byte) []int { return e.compiled().FindSubmatchIndex(b) }
func (e *Expression) FindAllSubmatchIndex(b []byte, n int) [][]int {
	return e.compiled().FindAllSubmatchIndex(b, n)
}
func (e *Expression) ReplaceAllString(s, to string) string {
	return e.compiled().ReplaceAllString(s, to)
}
func (e *Expression) ReplaceAllStringFunc(s string, f func(string) string) string {
	return e.compiled().ReplaceAllStringFunc(s, f)
}
func (e *Expression) Split(s string, n int) []string { return e.compiled().Split(s, n) }
