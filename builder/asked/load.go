package asked

import "strings"

// mostLoads is how many loads are answered.
const mostLoads = 8

// load reads what may go into which bath.
func (r *reader) load() {
	var named []string
	own := true
	for words := r.words; len(words) > 0; {
		things, length := r.names.longest(words)
		if length == 0 {
			return // a word that means something else
		}
		if words = words[length:]; things == "" {
			continue
		}
		if things[0] == '~' {
			things, own = things[1:], false
		}
		named = append(named, things)
	}
	loads := r.combine(named, "", "", "")
	if loads > mostLoads {
		r.out = ""
		r.put(asks, "many")
	} else if loads > 1 {
		r.put(asks, "which")
	} else if loads > 0 && !own {
		r.put(asks, "taken")
	}
}

// combine takes each name for each thing that it may mean and puts those loads that have materials, one bath, and at most one soil. It gives how many
// they are, and stops where they are too many.
func (r *reader) combine(named []string, soil, bath, materials string) (loads int) {
	if len(named) == 0 {
		if bath == "" || materials == "" {
			return 0
		}
		r.put(isLoad, soil, bath+materials)
		return 1
	}
	for _, thing := range strings.Split(named[0], " ") {
		soil, bath, materials := soil, bath, materials
		name, is := thing[1:], &bath
		switch thing[0] {
		case 'm':
			if !strings.Contains(materials+between, between+name+between) {
				materials += between + name
			}
			is, name = new(string), ""
		case 's':
			is = &soil
		}
		if *is != "" || loads > mostLoads {
			continue
		}
		*is = name
		loads += r.combine(named[1:], soil, bath, materials)
	}
	return loads
}
