package search

// Sections and Articles say how much the index holds, in all languages.
func (f *Finder) Sections() int {
	n := len(f.sections)
	for _, other := range f.others {
		n += len(other.sections)
	}
	return n
}

// Articles is explained with Sections.
func (f *Finder) Articles() int {
	n := len(f.articles)
	for _, other := range f.others {
		n += len(other.articles)
	}
	return n
}
