package admit

import "testing"

// Whatever bytes come as the packed table, they are read or refused; what Pack has made of what was read is read again.
func FuzzUnpack(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("{}"))
	f.Add([]byte("[1,2,{\"a\":\"b\"}]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := Unpack(data)
		if (table == nil) == (err == nil) {
			t.Fatalf("%v, %v", table, err)
		}
		if err == nil {
			if _, err := Unpack(table.Pack()); err != nil {
				t.Error("what was read cannot be packed again")
			}
		}
	})
}
