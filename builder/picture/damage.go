package picture

import "sync"

// one has large pictures decoded one after the other, because each takes up to maxMemory.
var one sync.Mutex

// smallPixels is what any number of pictures may have that are decoded at once.
const smallPixels = 4e6

// Damage decodes a picture and says why that fails; nil for a drawing, for a picture that decodes, and for one with a problem that Check
// finds. It is for whoever reads a manual's files, each once: Check is asked again and again.
func Damage(name string, data []byte) *Problem {
	s, problem := sortOf(name, data)
	if problem != nil || s == svg {
		return nil
	}
	r, problem := scan(s, data)
	if problem != nil {
		return nil
	}
	if float64(r.width)*float64(r.height) > smallPixels {
		one.Lock()
		defer one.Unlock()
	}
	if r.huge() {
		_, problem := r.once(data)
		return problem
	}
	if _, _, err := r.load(); err != nil {
		return undecodable(err)
	}
	return nil
}
