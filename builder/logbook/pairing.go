package logbook

import (
	"crypto/rand"
	"crypto/subtle"
	"errors"
	"fmt"
	"math/big"
	"sync"
	"time"
)

// Pairing is how a device gets its key: it asks, a code is shown on the host's own screen, somebody who stands there types it into the device. A code of eight
// digits that can be tried five times is guessed once in twenty million; whoever uses the tries up waits, each time twice as long.
type Pairing struct {
	book *Book
	now  func() time.Time

	// Show has a code shown on the host's screen: the name of the device that asks, where it asks from, the code, how long it holds.
	show func(name, from, code string, holds time.Duration)

	mu    sync.Mutex
	code  string // or "": none can be tried
	until time.Time
	tries int
	next  time.Time     // before which no code is shown
	pause time.Duration // after the next code that is used up
}

// How codes are given out.
const (
	CodeDigits = 8
	CodeTries  = 5
	CodeHolds  = 5 * time.Minute

	firstPause   = 30 * time.Second
	longestPause = time.Hour
)

// What keeps a device from being paired.
var (
	ErrWait = errors.New("too many have tried; wait, and ask again")
	ErrCode = errors.New("that is not the code on the host's screen, or its time is over")
)

// NewPairing begins; no code is shown before a device asks.
func NewPairing(b *Book, now func() time.Time, show func(name, from, code string, holds time.Duration)) *Pairing {
	return &Pairing{book: b, now: now, show: show, pause: firstPause}
}

// Ask has a code shown, unless one is shown already: two devices that ask at once are paired one after the other.
func (p *Pairing) Ask(name, from string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.now()
	if p.code != "" && now.Before(p.until) {
		return nil
	}
	if p.code != "" { // one that nobody has typed
		p.spend(now)
	}
	if now.Before(p.next) {
		return ErrWait
	}
	p.code, p.tries, p.until = newCode(), CodeTries, now.Add(CodeHolds)
	p.show(DeviceName(name), from, p.code[:4]+" "+p.code[4:], CodeHolds)
	return nil
}

// spend puts a code out of use and has the next one wait.
func (p *Pairing) spend(now time.Time) {
	p.code = ""
	p.next = now.Add(p.pause)
	p.pause = min(2*p.pause, longestPause)
}

// Try pairs a device that has the code, and gives its key. A code pairs one device.
func (p *Pairing) Try(code, name string) (key string, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.now()
	if p.code == "" || !now.Before(p.until) {
		return "", ErrCode
	}
	if subtle.ConstantTimeCompare([]byte(digits(code)), []byte(p.code)) != 1 {
		if p.tries--; p.tries == 0 {
			p.spend(now)
		}
		return "", ErrCode
	}
	p.code = ""
	p.next, p.pause = now, firstPause
	return p.book.pair(DeviceName(name), now)
}

// digits leaves out what people write between the digits of a code.
func digits(code string) string {
	var d []byte
	for i := range len(code) {
		if c := code[i]; c >= '0' && c <= '9' {
			d = append(d, c)
		}
	}
	return string(d)
}

// newCode draws a code.
func newCode() string {
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		panic(err) // crypto/rand never fails
	}
	return fmt.Sprintf("%0*d", CodeDigits, n)
}

// Pace bounds how often each of many may do something. The zero value is not one; make it with NewPace.
type Pace struct {
	now   func() time.Time
	every time.Duration // one in this time
	burst int           // and so many at once

	mu   sync.Mutex
	free map[string]time.Time // when each will have all of its burst again
}

// NewPace allows each one in a time, and some at once.
func NewPace(now func() time.Time, every time.Duration, burst int) *Pace {
	return &Pace{now: now, every: every, burst: burst, free: map[string]time.Time{}}
}

// mostPaced is how many are remembered before those that have waited long enough are forgotten.
const mostPaced = 1000

// Allow tells whether one may do it so many times now, and counts them.
func (p *Pace) Allow(who string, times int) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.now()
	if len(p.free) >= mostPaced {
		for w, at := range p.free {
			if !at.After(now) {
				delete(p.free, w)
			}
		}
		if len(p.free) >= mostPaced {
			return false
		}
	}
	at := p.free[who]
	if at.Before(now) {
		at = now
	}
	at = at.Add(time.Duration(times) * p.every)
	if at.Sub(now) > time.Duration(p.burst)*p.every {
		return false
	}
	p.free[who] = at
	return true
}
