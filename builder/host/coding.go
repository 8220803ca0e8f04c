package host

import (
	"net/http"
	"strconv"
	"strings"

	"tankside/builder/edition"
)

// neighbours are the compressed files beside a file, by content coding.
var neighbours = map[string]struct {
	suffix string
	sum    func(edition.File) string
}{
	"br":   {".br", func(f edition.File) string { return f.Brotli }},
	"gzip": {".gz", func(f edition.File) string { return f.Gzip }},
}

// codings gives the content codings of ours that a reader takes, best first: by its own weights, br before gzip where they are
// the same (RFC 9110, section 12.5.3). A reader that wants part of a file gets it from the file itself.
func codings(r *http.Request) []string {
	if r.Header.Get("Range") != "" {
		return nil
	}
	br, gzip, rest := -1.0, -1.0, -1.0
	for _, item := range strings.Split(strings.Join(r.Header.Values("Accept-Encoding"), ","), ",") {
		coding, weight := weighed(item)
		switch coding {
		case "br":
			br = weight
		case "gzip", "x-gzip":
			gzip = weight
		case "*":
			rest = weight
		}
	}
	if br < 0 {
		br = rest
	}
	if gzip < 0 {
		gzip = rest
	}
	switch {
	case br > 0 && br >= gzip && gzip > 0:
		return []string{"br", "gzip"}
	case gzip > 0 && br > 0:
		return []string{"gzip", "br"}
	case br > 0:
		return []string{"br"}
	case gzip > 0:
		return []string{"gzip"}
	}
	return nil
}

// weighed parts "gzip;q=0.5" into coding and weight. A weight that cannot be read refuses the coding.
func weighed(item string) (coding string, weight float64) {
	coding, rest, has := strings.Cut(item, ";")
	coding = strings.ToLower(strings.TrimSpace(coding))
	if !has {
		return coding, 1
	}
	q, is := strings.CutPrefix(strings.ToLower(strings.TrimSpace(rest)), "q=")
	if !is {
		return coding, 0
	}
	weight, err := strconv.ParseFloat(q, 64)
	if err != nil || !(weight >= 0 && weight <= 1) {
		return coding, 0
	}
	return coding, weight
}
