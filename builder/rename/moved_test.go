package rename_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
)

// An old address leads to one thing of today, and is none of today's; each line that is otherwise is found in its place.
func TestOldAddressesAreChecked(t *testing.T) {
	t.Parallel()
	for line, says := range map[string]string{
		"soils/old.md: soils/wax.md":                               "",
		"soils/Old Wax.md: soils/wax.md":                           "",
		"soils/old.md#a: soils/wax.md#melt-it":                     "",
		"soils/wax.md#old: soils/wax.md#melt-it":                   "",
		"soils/wax.md#old: procedures/wax-it.md":                   "",
		"tanks/old: tanks/wash-1":                                  "",
		"soils/old.md: soils/wax.es.md":                            "no article",
		"soils/wax.md: soils/other.md":                             "again",
		"soils/WAX.md: soils/other.md":                             "again",
		"soils/wax.md#melt-it: soils/wax.md#twice":                 "again",
		"soils/old.md: soils/wax.md#nothing":                       "no such heading",
		"tanks/wash-1: tanks/wash-1":                               "again",
		"tanks/old: tanks/older":                                   "no address of a tank of the shop file",
		"tanks/old: soils/wax.md":                                  "no address of a tank of the shop file",
		"tanks/../x: tanks/wash-1":                                 "no address of a tank",
		"pages/old.md: soils/wax.md":                               "no address of an article",
		"soils/../../old.md: soils/wax.md":                         "no address of an article",
		"/soils/old.md: soils/wax.md":                              "no address of an article",
		"soils//old.md: soils/wax.md":                              "no address of an article",
		"soils/index.md: soils/wax.md":                             "no address of an article",
		"soils/old.html: soils/wax.md":                             "no address of an article",
		"'soils/old.md#<script>': soils/wax.md#twice":              "no address of an article",
		"soils/old.md: [soils/wax.md]":                             "not an old address",
		"soils/old.md: soils/wax.md\nsoils/old.md: soils/other.md": "written twice",
	} {
		files := shop()
		files["moved.yaml"] = &fstest.MapFile{Data: []byte(line + "\n")}
		m, findings, err := manual.Read(t.Context(), files)
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, f := range findings {
			if f.File == "moved.yaml" && f.Line > 0 && f.Remedy != "" {
				said = append(said, f.Message)
			}
		}
		if text := strings.Join(said, " "); says == "" && (text != "" || len(m.Moved) != 1) || says != "" && !strings.Contains(text, says) {
			t.Errorf("%q: %q, %d lead on; want %q", line, text, len(m.Moved), says)
		}
	}
}
