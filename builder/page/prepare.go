package page

import (
	"crypto/sha256"
	"fmt"
	"sync"

	"tankside/builder/manual"
	"tankside/builder/picture"
)

// prepared keeps what preparing a picture gave, by the picture's name and content: a large photograph takes a second, and a manual that is
// watched is published at every change. It forgets everything when it holds more than mostPrepared bytes.
var prepared = struct {
	sync.Mutex
	pictures map[[sha256.Size]byte]picture.Picture
	bytes    int
}{pictures: map[[sha256.Size]byte]picture.Picture{}}

const mostPrepared = 128 << 20

// prepare makes a picture of the manual ready for the edition. What the proof-reader can tell of a picture has been told before; what
// shows only when it is decoded is an error that names the file.
func prepare(f manual.File) (picture.Picture, error) {
	key := sha256.Sum256(append([]byte(f.Path+"\x00"), f.Data...))
	prepared.Lock()
	made, known := prepared.pictures[key]
	prepared.Unlock()
	if known {
		return made, nil
	}
	made, err := picture.Prepare(f.Path, f.Data)
	if err != nil {
		if problem, ok := err.(*picture.Problem); ok {
			return made, fmt.Errorf("%s: %w %s", f.Path, problem, problem.Remedy)
		}
		return made, fmt.Errorf("%s: %w", f.Path, err)
	}
	prepared.Lock()
	defer prepared.Unlock()
	if prepared.bytes += len(made.Data); prepared.bytes > mostPrepared {
		clear(prepared.pictures)
		prepared.bytes = len(made.Data)
	}
	prepared.pictures[key] = made
	return made, nil
}
