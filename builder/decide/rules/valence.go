package rules

import (
	"slices"
	"strings"

	"tankside/builder/sentence"
)

// valence tells what a clause thinks of what it speaks of: above 0 where it praises it, below 0 where it blames it, 0 where it does neither. A word of
// praise or blame counts for the reverse behind a negation: “does no harm”, “has never hurt”, “nothing speaks against it” are praise, “is no friend of
// zinc” is blame. Two negations lift each other. One word of blame that nothing denies outweighs all praise, for of two readings it is the careful one.
func valence(s *sentence.Sentence, k int) int {
	words := s.Tokens()
	denied, ends, first, praise := false, 0, true, 0
	for i, w := range words {
		if w.Clause != k {
			continue
		}
		if w.Text == "," || w.Text == "but" || w.Text == "and" || i == ends {
			denied = false
		}
		if w.Text == "nothing" && textAt(words, i+1) == "else" && s.ClauseHas(k, looksGood) {
			praise, first = praise+1, false // “Nothing else gets brass so bright”
			continue
		}
		if denier(words, i) {
			denied, ends = !denied, len(words)
			if (w.Text == "no" || w.Text == "without") && !first {
				ends = i + 3 // it denies its noun alone
			}
			first = false
			continue
		}
		first = false
		v := valueAt(words, i)
		if denied != nones[textAt(words, i+1)] {
			v = denial(s, k, w.Text, v)
		}
		if v < 0 {
			return -1
		}
		praise += v
	}
	return praise
}

// denial is what a word of praise or blame says behind a negation. That a bath does not etch is no praise yet, that it does no harm is; and who forbids
// to stain brass praises nothing, who says not to be afraid does.
func denial(s *sentence.Sentence, k int, w string, v int) int {
	switch {
	case v >= 0 || attitudes[w]:
		return -v
	case beginsDenied(s, k):
		return -1
	case generalBlames[w]:
		return 1
	}
	return 0
}

// beginsDenied tells whether a clause begins with a negation, as a command that forbids does.
func beginsDenied(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	return len(list) > 0 && (list[0] == "never" || list[0] == "don't" || list[0] == "not" || list[0] == "do")
}

// denier tells whether the word at a place denies what follows it: “no doubt” and “no longer than” deny nothing, “a little” is an amount.
func denier(words []sentence.Token, i int) bool {
	next := textAt(words, i+1)
	switch w := words[i].Text; w {
	case "no", "without":
		return next != "match" && next != "doubt" && next != "longer" && next != "more" && next != "later"
	case "not":
		return next != "only"
	case "little", "few":
		return textAt(words, i-1) != "a" && blames[next]
	default:
		return deniers[w]
	}
}

// textAt is the word at a place, "" beyond the ends.
func textAt(words []sentence.Token, i int) string {
	if i < 0 || i >= len(words) {
		return ""
	}
	return words[i].Text
}

// valueAt is what the word at a place says by itself: 1 praise, -1 blame, 0 neither.
func valueAt(words []sentence.Token, i int) int {
	w, next, before := words[i].Text, textAt(words, i+1), textAt(words, i-1)
	switch {
	case slices.Contains(praisePhrases, w+" "+next):
		return 1
	case w == "right" && (next == "away" || next == "after" || next == "behind"), w == "like" && !likedBy(before):
		return 0
	case (w == "yes" || w == "sure") && before != "" && before != "," && before != ":", w == "away" && (before == "do" || before == "does"), w == "out" && !keptOut(words, i):
		return 0
	case (badLooks[w] || strings.HasSuffix(w, "ed") && blames[w]) && !becomesSo(words, i):
		return 0 // “stained fittings” and “black contacts” are what is to be cleaned
	case (w == "keep" || w == "keeps") && (keptReady(words, i) || keptGood(words, i)):
		return 1 // “so keep a bucket of it at hand”
	case w == "too":
		if next == "" || next == "." || next == "," {
			return 0 // “brass, too”
		}
		return -1
	case w == "against" && !spokenAgainst[before]:
		return 0 // “the nut against the bush”
	case blames[w], suffers[w], badLooks[w], ills[w] && w != "would":
		return -1
	case praises[w]:
		return 1
	}
	return 0
}

// keptReady tells whether something is to be kept where it is at hand.
func keptReady(words []sentence.Token, i int) bool {
	ahead := words[i:min(i+8, len(words))]
	return hasAny(ahead, atReach) && !hasAny(ahead, offOrAway)
}

// keptGood tells whether something keeps the work as it is to be: “keeps acrylic clear”.
func keptGood(words []sentence.Token, i int) bool {
	for j := i + 1; j < min(i+5, len(words)); j++ {
		if keptAs[words[j].Text] {
			return true
		}
		if words[j].Text == "in" || words[j].Text == "of" || words[j].Text == "away" || words[j].Text == "from" || words[j].Text == "out" {
			return false
		}
	}
	return false
}

// keptOut tells whether “out” stands behind a verb of keeping or staying: “stays out of it”, not “comes out bright”.
func keptOut(words []sentence.Token, i int) bool {
	return slices.ContainsFunc(words[max(0, i-3):i], func(w sentence.Token) bool { return keeping[w.Text] })
}

// becomesSo tells whether a participle is said of something by a verb before it: “is pitted”, “comes out stained”.
func becomesSo(words []sentence.Token, i int) bool {
	return slices.ContainsFunc(words[max(0, i-3):i], func(w sentence.Token) bool { return happensTo[w.Text] })
}

// likedBy tells whether the word before “like” is who likes something: “we like”, “nuts like”; not “baths such as”, “is like”.
func likedBy(w string) bool {
	return people[w] || len(w) > 3 && w[len(w)-1] == 's' && w[len(w)-2] != 's' && w != "this" && w != "looks" && w != "baths" && w != "tanks" && w != "acids" && w != "works"
}

// isLiked tells whether a bath is what somebody likes, and not what something is like.
func isLiked(s *sentence.Sentence, m *sentence.Mention) bool {
	words, at := s.Tokens(), tokenOf(s, m)
	return s.Before(m) == "like" && slices.ContainsFunc(words[max(0, at-3):max(0, at-1)], func(w sentence.Token) bool { return likedBy(w.Text) })
}

var (
	people        = sentence.Set("we they i you people")
	atReach       = sentence.Set("hand handy ready stock bench nearby")
	offOrAway     = sentence.Set("off away out from")
	keptAs        = sentence.Set("clear bright clean new shiny spotless glossy")
	nones         = sentence.Set("neither none nothing nobody no") // right behind a word: “fits neither”, “harms nothing”
	keeping       = sentence.Set("keep keeps kept stay stays stayed leave leaves left is are belongs remain remains")
	happensTo     = sentence.Set("is are be been being get gets got become becomes come comes turn turns leaves left has have never go goes")
	deniers       = sentence.Set("never nothing nobody none neither nor cannot can't don't doesn't won't isn't aren't didn't hasn't haven't needn't hardly scarcely rarely seldom")
	spokenAgainst = sentence.Set("speaks speak spoke say says said objection objections reason reasons anything much little argue argues have has decide decides decided advise advises is are")

	// praises are words for what suits, helps, or is liked.
	praises = sentence.Set(`answer remedy cure happiest safest kindest nicest profit profits benefit benefits friend friends favourite favorite ticket welcome allowed permitted approved excellent great superb splendid brilliant unbeatable proven safe fine ok okay harmless suitable ideal perfect recommended gentle kind suits suit fits fit
		like likes love loves enjoy enjoys trust trusts best nicely sorts sort beautifully spotless wonders together yes sure happily gladly freshens refreshes revives restores brightens copes handles manages conquers masters right`)
	// praisePhrases are words that praise by the word behind them alone.
	praisePhrases = []string{"swear by", "swears by", "makes short", "make short", "sees off", "see off", "go ahead", "by all", "rely on", "relies on", "reach for", "go for", "the thing", "case for", "cases for", "job for", "made for", "born for", "built for", "at home", "at ease", "get on", "gets on", "daily bread", "calls for", "call for", "cries for", "cry for", "mild enough", "match for", "good match", "perfect match",
		"weak enough", "gentle enough", "soft enough", "deals with", "deal with", "get along", "gets along", "gives way", "give way", "yields to", "yield to", "does away", "is good", "are good", "good for", "good on", "good with", "goes well", "go well", "works well", "comes up", "come up", "first choice", "made short", "do well", "does well", "fare well", "fares well", "happy in", "thrive in", "thrives in"}
	// attitudes are feelings that nobody needs to have of what is harmless, generalBlames all that says of no damage in particular.
	attitudes     = sentence.Set("shy afraid fear fears worry worries mind minds bother bothers")
	generalBlames = sentence.Set("streak streaks smear smears blemish blemishes murmur grumble grumbling protest whimper against objection objections problem problems trouble mind minds shy afraid fear fears worry worries bother bothers suffer suffers hurt hurts harm harms damage damages risk risks beat beats beaten complain complains complaint complaints hate hates enemy wrong bad scratch mark sweat fuss hitch issue issues drawback drawbacks downside")
	// blames are words for what hurts, fails, or is kept away. Behind a negation they are praise.
	blames = sentence.Set(`streak streaks smear blemish blemishes murmur grumble grumbling protest whimper against objection objections problem problems trouble mind minds shy afraid fear fears worry worries bother bothers suffer suffers hurt hurts harm harms damage damages damaged risk risks beat beats beaten complain complains complaint complaints hate hates end enemy poison
		stain stains stained pit pits pitted etch etches etched eat eats eaten attack attacks attacked ruin ruins ruined crack cracks cracked cracking spoil spoils spoilt spoiled corrode corrodes darken darkens darkened tarnish tarnishes dulls dulled blacken blackens dissolve dissolves dissolved dissolving swell swells
		swollen soften softens softened lift-off lose loses lost loosens leach leaches leached embrittle embrittles embrittlement craze crazes crazed crazing fog fogs cloud clouds haze hazes strip strips stripped bite bites gnaw gnaws kill kills weaken weakens
		scratch sweat fuss hitch issue issues drawback drawbacks downside away out off-limits separate separately forbidden prohibited barred refuse refuses refused wrong bad worse worst unsafe unsuitable dangerous useless weak harsh aggressive fails fail failed stays-out keep keeps kept banned warn warns warning careful caution beware last-resort
		only except unless instead rather elsewhere scrap rejected returned replaced laughs laugh nonsense myth rumour turned avoid avoids spreads smears drops`)
)
