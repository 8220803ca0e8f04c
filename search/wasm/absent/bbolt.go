// Package bbolt stands in for bleve's database on disk, which maps files into memory and does not compile for WebAssembly. bleve's scorers come
// with it, because one file of its package util wraps it for indexes that are kept on disk. Nothing here is called in a browser: what could be
// answers with [ErrAbsent].
package bbolt

import (
	"errors"
	"os"
)

// ErrAbsent is the answer of every function that can return an error.
var ErrAbsent = errors.New("no database on disk in the browser build")

// Nothing makes one of these.
type (
	DB      struct{}
	Tx      struct{}
	Bucket  struct{}
	Options struct{}
)

func Open(string, os.FileMode, *Options) (*DB, error) { return nil, ErrAbsent }

func (*DB) Begin(bool) (*Tx, error)      { return nil, ErrAbsent }
func (*DB) View(func(*Tx) error) error   { return ErrAbsent }
func (*DB) Update(func(*Tx) error) error { return ErrAbsent }

func (*Tx) Bucket([]byte) *Bucket                           { return nil }
func (*Tx) CreateBucketIfNotExists([]byte) (*Bucket, error) { return nil, ErrAbsent }

func (*Bucket) Bucket([]byte) *Bucket                           { return nil }
func (*Bucket) CreateBucketIfNotExists([]byte) (*Bucket, error) { return nil, ErrAbsent }
func (*Bucket) Get([]byte) []byte                               { return nil }
func (*Bucket) Put(_, _ []byte) error                           { return ErrAbsent }
func (*Bucket) ForEach(func(_, _ []byte) error) error           { return ErrAbsent }
