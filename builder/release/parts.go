package main

import (
	"bytes"
	"debug/buildinfo"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// compareParts refuses a command that has something in it that the list of parts beside it does not name in that version, as the command itself says.
func compareParts(files []file, program string) error {
	info, err := buildinfo.Read(bytes.NewReader(dataOf(files, program)))
	if err != nil {
		return fmt.Errorf("%s does not say what it is made of: %w", program, err)
	}
	listed, err := partsListed(dataOf(files, partsName))
	if err != nil {
		return err
	}
	linked := []string{"stdlib " + strings.TrimPrefix(info.GoVersion, "go")}
	for _, m := range info.Deps {
		linked = append(linked, m.Path+" "+m.Version)
	}
	for _, m := range linked {
		if !listed[m] {
			return fmt.Errorf("%s has %s in it, which the list of parts does not name: write it anew with make parts", program, m)
		}
	}
	return nil
}

// partsListed are the parts of a list in SPDX 2.3, as “name version”.
func partsListed(list []byte) (map[string]bool, error) {
	var d struct {
		Packages []struct{ Name, VersionInfo string }
	}
	if err := json.Unmarshal(list, &d); err != nil {
		return nil, fmt.Errorf("%s: %w", partsName, err)
	}
	parts := map[string]bool{}
	for _, p := range d.Packages {
		parts[p.Name+" "+p.VersionInfo] = true
	}
	return parts, nil
}

func dataOf(files []file, name string) []byte {
	i := slices.IndexFunc(files, func(f file) bool { return f.name == name })
	if i < 0 {
		return nil
	}
	return files[i].data
}
