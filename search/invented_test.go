package search_test

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"tankside/search"
)

// invented makes a manual of n articles of five sections, about 4 kB each, with
// the words of technical English spread as words are (a few common, most
// rare). The same n gives the same manual.
func invented(n int) []search.Document {
	r := rand.New(rand.NewPCG(3, 5))
	words := vocabulary(r, 200+20*n)
	common := rand.NewZipf(r, 1.07, 3, uint64(len(words)-1))
	prose := func(n int) string {
		var b strings.Builder
		for i := range n {
			switch r.IntN(40) {
			case 0:
				fmt.Fprintf(&b, "%d °C ", 20+r.IntN(60))
			case 1:
				fmt.Fprintf(&b, "%d–%d min ", 1+r.IntN(4), 5+r.IntN(10))
			default:
				b.WriteString(words[common.Uint64()])
				if i%12 == 11 {
					b.WriteByte('.')
				}
				b.WriteByte(' ')
			}
		}
		return b.String()
	}
	kinds := []string{"soil", "chemistry", "material", "symptom", "procedure", "lesson", "part"}
	stations := []string{"receive", "wash", "rinse", "dry", "inspect", "maintain"}
	var docs []search.Document
	for i := range n {
		kind := kinds[i%len(kinds)]
		head := search.Document{Path: fmt.Sprintf("%s/article-%05d.html", kind, i), Title: prose(3), Kind: kind,
			Station: stations[i%len(stations)], Text: prose(40), AlsoCalled: []string{prose(2), prose(1)}}
		docs = append(docs, head)
		for s := range 4 {
			docs = append(docs, search.Document{Path: fmt.Sprintf("%s#step-%d", head.Path, s), Title: head.Title, Kind: kind,
				Station: head.Station, Section: prose(4), Question: kind == "symptom", Text: prose(145)})
		}
	}
	return docs
}

// vocabulary makes up n words, beginning with the trade's.
func vocabulary(r *rand.Rand, n int) []string {
	words := strings.Fields(`bath part water rinse clean temperature detergent spot film oil grease wax rust scale soil
		aluminium brass steel tank basket load heat cold sound foil test strength dose dry air drain filter`)
	parts := strings.Fields(`an de tor lim cal sol mer phos ver tan ric ben col dur fer gal hel ion jec kel lub mag nit or
		pel quen ras sul ter ur vis wel xan yel zin ble cro dri flu gri plo stra tri`)
	seen := map[string]bool{}
	for len(words) < n {
		word := ""
		for range 2 + r.IntN(3) {
			word += parts[r.IntN(len(parts))]
		}
		if !seen[word] {
			seen[word] = true
			words = append(words, word)
		}
	}
	return words
}
