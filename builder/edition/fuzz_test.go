package edition

import (
	"errors"
	"io/fs"
	"testing"
)

// Whatever stands in the file of a checksum list, it is a list as it was written, of files within the folder, or it is called damaged.
func FuzzList(f *testing.F) {
	l := List{Shop: "Shop", Files: []File{{Path: "index.html", Bytes: 3, SHA256: Sum([]byte("one"))}}}
	l.Digest = l.digest()
	data, err := l.encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte(`{"files":[{"path":"../x"}]}`))
	f.Add([]byte(`{"edition":-1,"parcels":{"a":"b"},"content":[""],"digest":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := parseList(data)
		if err != nil {
			var damaged *DamagedListError
			if !errors.As(err, &damaged) || damaged.Problem == "" {
				t.Errorf("%v", err)
			}
			return
		}
		for _, file := range l.Files {
			if !fs.ValidPath(file.Path) || file.Path == "." {
				t.Errorf("%q is let through", file.Path)
			}
		}
	})
}

// Whatever stands in a parcel, it unpacks to what was packed, or is refused.
func FuzzParcel(f *testing.F) {
	f.Add([]byte(`tankside.parcel("search","H4sIAAAAAAAA/8tIzcnJBwCGphA2BQAAAA==");`))
	f.Add([]byte(`tankside.parcel("search","");`))
	f.Add([]byte(`tankside.parcel("search",[1]);`))
	f.Fuzz(func(t *testing.T, script []byte) {
		if content, err := unpack(script, "search"); err == nil && len(content) > largestParcel {
			t.Errorf("%d bytes", len(content))
		}
	})
}
