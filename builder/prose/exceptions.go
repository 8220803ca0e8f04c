package prose

// exceptions are words of this trade, and everyday ones, that the rules of spelling count wrongly. Their plurals go with them.
var exceptions = map[string]int{
	"argu": 2, "argue": 2, "business": 2, "businesses": 3, "circuit": 2, "cushion": 2, "deionise": 4, "deionis": 4, "deioniser": 5, "deioniz": 4, "deionize": 4, "diamond": 2, "element": 3, "european": 4, "every": 2,
	"hundred": 2, "kilometre": 4, "naked": 2, "people": 2, "protease": 3, "ratio": 3, "recipe": 3, "science": 2, "theirs": 1, "vacuum": 2, "wherever": 3,
}

// compound is a word with a silent e, or with a y, that often stands first in a longer one.
type compound struct {
	word      string
	syllables int
}

var compounds = []compound{
	{"any", 2}, {"base", 1}, {"before", 2}, {"else", 1}, {"every", 2}, {"eye", 1}, {"fire", 1}, {"fore", 1}, {"frame", 1}, {"guide", 1},
	{"life", 1}, {"lime", 1}, {"lukewarm", 2}, {"luke", 1}, {"name", 1}, {"race", 1}, {"side", 1}, {"some", 1}, {"there", 1}, {"waste", 1}, {"wave", 1}, {"where", 1},
}
