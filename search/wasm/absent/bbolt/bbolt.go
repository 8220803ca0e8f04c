// Package bbolt stands in for the real go.etcd.io/bbolt in the browser build.
//
// bbolt maps files into memory and does not compile for WebAssembly. scorch
// imports it for indexes kept on disk; an index that lives in memory never
// opens a database. Every function here therefore answers with [ErrAbsent].
package bbolt

import (
	"errors"
	"os"
	"time"
)

// ErrAbsent is the answer of every function of this package.
var ErrAbsent = errors.New("no database on disk in the browser build")

// ErrBucketNotFound is compared with by scorch and never returned here.
var ErrBucketNotFound = errors.New("bucket not found")

// Options mirrors the fields that scorch sets.
type Options struct {
	Timeout      time.Duration
	NoGrowSync   bool
	ReadOnly     bool
	FreelistType string
	NoSync       bool
	OpenFile     func(string, int, os.FileMode) (*os.File, error)
}

// DefaultOptions is copied by scorch before it looks at its path.
var DefaultOptions = &Options{}

// DB, Tx, Bucket and Cursor have no value that a caller could get hold of.
type (
	DB     struct{}
	Tx     struct{}
	Bucket struct{}
	Cursor struct{}
)

func Open(string, os.FileMode, *Options) (*DB, error) { return nil, ErrAbsent }

func (*DB) Begin(bool) (*Tx, error)       { return nil, ErrAbsent }
func (*DB) View(func(*Tx) error) error    { return ErrAbsent }
func (*DB) Update(func(*Tx) error) error  { return ErrAbsent }
func (*DB) Sync() error                   { return ErrAbsent }
func (*DB) Close() error                  { return ErrAbsent }
func (*Tx) Commit() error                 { return ErrAbsent }
func (*Tx) Rollback() error               { return ErrAbsent }
func (*Tx) Bucket([]byte) *Bucket         { return nil }
func (*Tx) DeleteBucket([]byte) error     { return ErrAbsent }
func (*Tx) Size() int64                   { return 0 }
func (*Bucket) Bucket([]byte) *Bucket     { return nil }
func (*Bucket) Get([]byte) []byte         { return nil }
func (*Bucket) Put([]byte, []byte) error  { return ErrAbsent }
func (*Bucket) Delete([]byte) error       { return ErrAbsent }
func (*Bucket) DeleteBucket([]byte) error { return ErrAbsent }
func (*Bucket) Cursor() *Cursor           { return nil }

func (*Bucket) ForEach(func(k, v []byte) error) error           { return ErrAbsent }
func (*Bucket) CreateBucket([]byte) (*Bucket, error)            { return nil, ErrAbsent }
func (*Bucket) CreateBucketIfNotExists([]byte) (*Bucket, error) { return nil, ErrAbsent }
func (*Tx) CreateBucketIfNotExists([]byte) (*Bucket, error)     { return nil, ErrAbsent }

func (*Cursor) First() (key, value []byte) { return nil, nil }
func (*Cursor) Last() (key, value []byte)  { return nil, nil }
func (*Cursor) Next() (key, value []byte)  { return nil, nil }
func (*Cursor) Prev() (key, value []byte)  { return nil, nil }
