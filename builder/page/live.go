package page

import (
	"context"
	"strings"
)

// ShowsReadings tells whether a file of an edition may be one that [Live] makes.
func ShowsReadings(path string) bool {
	for _, folder := range []string{"records/", "tanks/", "stations/"} {
		if strings.HasPrefix(path, folder) || strings.Contains(path, "/"+folder) { // in a language of translations
			return true
		}
	}
	return OfRecord(path)
}

// Live renders again the pages that show readings: those of each tank, rinse and the dryer, the months, the tanks' own, the stations that list them; in every
// language. With the records of the edition they have its bytes. Assets come along, under the names that they have in the edition.
func Live(ctx context.Context, in Input, add Sink) error {
	s, err := newSite(in, add)
	if err != nil {
		return err
	}
	live := map[string]bool{stationPage("wash"): true, stationPage("rinse"): true}
	for _, id := range in.Manual.Shop.Vessels() {
		live[recordPage(id)], live[monthPage(id)], live[tankPage(id)] = true, true, true
	}
	var jobs []job
	for _, j := range s.pages() {
		if live[j.base] {
			jobs = append(jobs, j)
		}
	}
	return inParallel(ctx, jobs, func(j job) error { return j.render(add) }, nil)
}
