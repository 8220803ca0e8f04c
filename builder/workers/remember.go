package workers

import "sync"

// Remember gives a function that gives what of gives, and remembers it for the last texts that it was asked for, some most of them: for what takes long and is asked again and again,
// by edition after edition. of has to be a pure function. It may be called from several goroutines.
func Remember[T any](most int, of func(text string) T) func(text string) T {
	var mu sync.Mutex
	now, before := map[string]T{}, map[string]T{} // when now is full it becomes before, and what was in that is forgotten
	return func(text string) T {
		mu.Lock()
		got, known := now[text]
		if !known {
			got, known = before[text]
		}
		mu.Unlock()
		if !known {
			got = of(text)
		}
		mu.Lock()
		defer mu.Unlock()
		if len(now) >= (most+1)/2 {
			now, before = map[string]T{}, now
		}
		now[text] = got
		return got
	}
}
