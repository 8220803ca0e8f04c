package search

import "strings"

// everyday are words of plain English that people use for one another whatever
// the manual is about. What belongs to a trade is said by the manual itself: in
// its glossary and in what its articles are also called.
func everyday() (all []Synonym) {
	for line := range strings.Lines(`
		arrange, place, position, stack, pile, load
		throw away, throw out, dump, discard, dispose
		try out, trial
		refill, top up
		fix, repair, mend
		faulty, broken, dead, failed
		dirt, muck, gunk, grime, filth, crud, soil
		smell, odour, stink, reek
		froth, lather, foam, suds
		shiny, bright, glossy
		dull, matt, hazy, cloudy
		loud, noisy, noise
		quiet, silent
		lukewarm, cool, cold
		warm, hot, heat
		weak, poor
		leak, escape, lose
		rag, cloth
		scratch, scrape, scuff
		stick, glue, cling
		detergent, cleaner, soap, concentrate
		amount, quantity, how much
		ruin, damage, spoil, wreck
		hurt, harm, injure
		rust, corrosion
		part, component, workpiece
		check, inspect, verify
		lid, cover
		hole, bore
		old, worn, spent
		speck, spot, dot, fleck
		skin, layer, film, coat
		crack, split, craze
		fast, quick
		shut down, switch off, turn off
	`) {
		if words := strings.Split(strings.TrimSpace(line), ", "); len(words) > 1 {
			all = append(all, Synonym{Words: words})
		}
	}
	return all
}

// everydayOf gives those of a language; there are lists of English words only.
func everydayOf(tag string) []Synonym {
	if languageOf(tag) != languages[englishTag] {
		return nil
	}
	return everyday()
}
