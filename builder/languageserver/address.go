package languageserver

import (
	"net/url"
	"path/filepath"
	"strings"
)

// fileOf gives the path of a file: URI (RFC 8089) on this machine; false for every other.
func fileOf(uri string) (string, bool) {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" || u.Host != "" && u.Host != "localhost" || !strings.HasPrefix(u.Path, "/") || strings.ContainsRune(u.Path, 0) {
		return "", false
	}
	p := u.Path
	if len(p) > 2 && p[2] == ':' { // /C:/manual
		p = p[1:]
	}
	return filepath.Clean(filepath.FromSlash(p)), true
}

// uriOf gives the file: URI of a path.
func uriOf(file string) string {
	p := filepath.ToSlash(file)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return (&url.URL{Scheme: "file", Path: p}).String()
}

// within gives the path of a file below a folder, slash-separated; false where it is not below it.
func within(folder, file string) (string, bool) {
	p, err := filepath.Rel(folder, file)
	if err != nil || p == "." || p == ".." || strings.HasPrefix(p, ".."+string(filepath.Separator)) || filepath.IsAbs(p) {
		return "", false
	}
	return filepath.ToSlash(p), true
}
