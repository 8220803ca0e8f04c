package changes

import (
	"maps"
	"strings"

	"tankside/builder/content"
	"tankside/builder/manual"
)

// leading is what is known of where files went: what the content's own file of old addresses says of articles, with their translations, and else what history
// tells.
func leading(b *content.Content, history map[string]string) map[string]string {
	d, has := b.At(manual.MovedFile)
	if !has {
		return history
	}
	all := maps.Clone(history)
	if all == nil {
		all = map[string]string{}
	}
	for _, p := range d.Parts() {
		from, to := p.Name, p.Text
		if !content.IsArticle(from) || !content.IsArticle(to) { // of a tank or a heading
			continue
		}
		all[from] = to
		for _, t := range b.Docs() {
			if original, language := manual.OriginalOf(t.Path); language != "" && original == to {
				all[strings.TrimSuffix(from, ".md")+strings.TrimPrefix(t.Path, strings.TrimSuffix(to, ".md"))] = t.Path
			}
		}
	}
	return all
}
