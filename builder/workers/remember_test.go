package workers

import (
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
)

func TestRemember(t *testing.T) {
	var asked atomic.Int64
	long := Remember(10, func(text string) int { asked.Add(1); return len(text) })
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for range 100 {
				if long("four") != 4 || long("") != 0 {
					t.Error("another answer")
				}
			}
		})
	}
	all.Wait()
	if n := asked.Load(); n > 8 {
		t.Errorf("asked %d times", n)
	}
	for i := range 1000 { // more than is remembered
		if text := fmt.Sprint(i); long(text) != len(text) || long("four") != 4 {
			t.Errorf("another answer for %s", text)
		}
	}
	if n := asked.Load(); n < 1000 || n > 1010 {
		t.Errorf("asked %d times: too much or too little is remembered", n)
	}
}
