package logbook

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"
	"unicode"
)

// Device is one that has been paired.
type Device struct {
	Name    string `json:"name"`
	Paired  string `json:"paired"`            // a time of ISO 8601
	Revoked string `json:"revoked,omitempty"` // since when its key is worth nothing
	Digest  string `json:"key_sha256"`        // of its key, which is kept nowhere but on the device
}

// Limits of devices.
const (
	MostDevices = 200
	MaxName     = 40 // characters of a device's name

	largestList = 1 << 20 // bytes
)

// devicesName is the file with the devices.
const devicesName = ".devices.json"

// ErrNoDevice says that no paired device has a name.
var ErrNoDevice = errors.New("no paired device has that name")

// Devices are those that have been paired, revoked ones among them, in the order in which they were.
func (b *Book) Devices() ([]Device, error) {
	info, err := regular(b.path(devicesName))
	if info == nil {
		return nil, err
	}
	f, err := os.Open(b.path(devicesName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, largestList))
	if err := errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	var list []Device
	if err := json.Unmarshal(data, &list); err != nil {
		return nil, fmt.Errorf("%s is not as it was written (%w); take it away, and pair the devices anew", devicesName, err)
	}
	return list, nil
}

// pair gives a new device its key. Its name gets a number where another has it.
func (b *Book) pair(name string, now time.Time) (key string, err error) {
	key = newKey()
	err = b.change(func(list []Device) ([]Device, error) {
		if len(list) >= MostDevices {
			list = slices.DeleteFunc(list, func(d Device) bool { return d.Revoked != "" })
		}
		if len(list) >= MostDevices {
			return nil, fmt.Errorf("%d devices are paired, which is as many as there can be; revoke those that are gone", MostDevices)
		}
		own := name
		for n := 2; slices.ContainsFunc(list, func(d Device) bool { return d.Name == own }); n++ {
			own = fmt.Sprintf("%s (%d)", name, n)
		}
		return append(list, Device{Name: own, Paired: now.Format(time.RFC3339), Digest: digestOf(key)}), nil
	})
	return key, err
}

// Revoke makes the key of a device worth nothing, at once, also in a host that is running.
func (b *Book) Revoke(name string, now time.Time) error {
	return b.change(func(list []Device) ([]Device, error) {
		i := slices.IndexFunc(list, func(d Device) bool { return d.Name == name })
		if i < 0 {
			return nil, ErrNoDevice
		}
		if list[i].Revoked == "" {
			list[i].Revoked = now.Format(time.RFC3339)
		}
		return list, nil
	})
}

// change writes the list of devices anew, whole or not at all.
func (b *Book) change(do func([]Device) ([]Device, error)) error {
	unlock, err := b.locked.Lock()
	if err != nil {
		return err
	}
	defer unlock()
	list, err := b.Devices()
	if err == nil {
		list, err = do(list)
	}
	if err != nil {
		return err
	}
	data, err := json.MarshalIndent(list, "", "  ")
	if err != nil {
		return err
	}
	return b.replace(devicesName, append(data, '\n'), 0o600)
}

// keyBytes is how long a key is: as long as no guessing reaches.
const keyBytes = 32

func newKey() string {
	var bytes [keyBytes]byte
	rand.Read(bytes[:]) // never fails
	return base64.RawURLEncoding.EncodeToString(bytes[:])
}

// digestOf is what is kept of a key. A key is drawn by lot and as long as the digest, so a plain one does: there are no words to try.
func digestOf(key string) string {
	sum := sha256.Sum256([]byte(key))
	return hex.EncodeToString(sum[:])
}

// Holder gives the device whose key it is; false where it is none's, or the device has been revoked. How long that takes tells nothing of the keys.
func (b *Book) Holder(key string) (string, bool, error) {
	list, err := b.Devices()
	if err != nil {
		return "", false, err
	}
	sum := []byte(digestOf(key))
	name, found := "", 0
	for _, d := range list {
		if is := subtle.ConstantTimeCompare(sum, []byte(d.Digest)); is == 1 && d.Revoked == "" {
			name, found = d.Name, 1
		}
	}
	return name, found == 1, nil
}

// DeviceName makes a name that can be shown anywhere of what a device calls itself.
func DeviceName(text string) string {
	text = strings.Join(strings.FieldsFunc(strings.ToValidUTF8(text, " "), func(r rune) bool { return !unicode.IsPrint(r) || r == ' ' }), " ")
	if r := []rune(text); len(r) > MaxName {
		text = strings.TrimSpace(string(r[:MaxName]))
	}
	if text == "" {
		return "device"
	}
	return text
}
