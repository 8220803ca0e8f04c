package sentence

import "strings"

func set(words string) map[string]bool {
	m := make(map[string]bool, 1+strings.Count(words, " "))
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

// What opens a clause.
var (
	conditions  = set("if unless when whenever where wherever should suppose supposing provided assuming lest whether in-case even-if as-long-as")
	temporal    = set("once after as-soon-as only-when only-once only-after")
	waits       = set("until till before")
	reasons     = set("because since for-then as which who that while whereas although though so-that whatever whichever however")
	joins       = set("and but or then so otherwise else")
	fillers     = set("then now always first next please slowly also again only and but or so otherwise else afterwards finally carefully gently just simply instead here therefore thus usually normally generally too still ever even both either quickly immediately straight at-once later meanwhile lastly second third fourthly secondly thirdly")
	persons     = set("you we operator operators technicians everybody everyone")
	somebodies  = set("somebody someone he she nobody anyone who predecessor colleague apprentice")
	modals      = set("must should shall has have need needs ought will is are")
	mays        = set("may can could might")
	negations   = set("not never no don't doesn't mustn't shouldn't cannot can't without nor neither nothing nobody avoid avoids refrain won't isn't aren't needn't may-not nowhere stop forbidden prohibited refuse")
	pasts       = set("was were had did stood ran reached came went got found noted measured logged showed gave took read rose fell dropped climbed became turned yesterday formerly previously overshot sank sat drove told swung crept slipped ago earlier once-upon last-week last-month last-year last-shift last-time has-been had-been have-been former happened broke washed-at used-to tripped")
	examples    = set("would wouldn't	example examples instance e.g. eg say suppose imagine assume imagined pretend such-as as-if hypothetical let-us-say fictitious what-if guess")
	harms       = set("hazes frosts tarnishes browns pickles crazing clouding etching overdone wrong mistake myth error ruin ruins ruined spoil spoils spoiled spoilt scold scolds damage damages damaged harm harms kills crack cracks craze crazes cloud clouds cloudy scum separate separates splits warp warps soften softens scrap destroy destroys destroyed burn burns darken darkens dulls etch etches attack attacks dissolve dissolves fail fails dangerous danger risk risky trip trips too alarm cuts erupts boils degrade degrades breaks blister blisters swell swells distort distorts melt-down unsafe bad worse worst mischief havoc lost loses forbidden prohibited excessive overheats overheated overheating ignite ignites explode explodes useless pointless illegal contrary against violates hurts shrinks sags peel peels discolour discolours gels fixes sets-hard cooks milky stops fades flawed nonsense rumour rumor despite wrongly incorrect incorrectly")
	stands      = set("stand stands withstand withstands take takes tolerate tolerates bear bears survive survives cope copes endure endures accept accepts allow allows permit permits")
	fits        = set("safe fine allowed permitted harmless acceptable ok okay happy comfortable")
	wants       = set("want wants need needs require requires asks ask calls likes prefers demands deserves wanted needed required")
	normalVerbs = set("degassed exposed neutralised neutralized charged removed dissolved brightened blown washed heated brought set held kept run raised cleaned rinsed dried soaked dipped warmed taken operated used worked processed filled mixed made diluted dosed lifted turned adjusted maintained left sonicated immersed degreased treated stripped derusted descaled cooled lowered poured added given fed let allowed stepped driven ramped pushed cranked boosted dialled")
)

// imperatives are verbs with which commands of a workshop begin.
var imperatives = set(`
	add adjust agitate aim allow apply ask avoid bake begin blow boil book bring brush build call change charge check choose clean clear clip close collect
	compare connect continue cool count cover cut cycle degas degrease derust descale dilute dip discard dissolve do dose drag drain draw dress drop dry dump
	empty ensure expose fasten feed fetch fill filter finish fit fix flush follow force get give go grab grip hang have heat hoist hold immerse increase insert
	inspect keep label lay leave let lift load lock look lower maintain make mark measure mix monitor mount move neutralise neutralize note offer open operate
	order pass place pour preheat prepare press pull pump purge push put raise reach read record reduce refill reheat remove repeat replace rerun reset rest return
	rinse rotate rub run scrub see select send separate set shake shut skim slide soak sonicate sprinkle splash spray stand start stay steam stir stop store strip submerge swing swirl
	switch swill take tap test tip titrate top touch transfer treat try turn use wait warm wash watch wear weigh wet wipe work write crank dial programme program
	bump nudge restore feel dunk plunge steep tumble bathe dab swab mop brighten refresh soften loosen drive ramp boost combine spoon tip ladle process correct target expect plan
	`)

// kinds of words of which a clause is judged, looked up once for each word.
type wordKind uint32

const (
	isFiller wordKind = 1 << iota
	isPerson
	isSomebody
	isModal
	isMay
	isNegation
	isPast
	isExample
	isHarm
	isStand
	isFit
	isWant
	isNormalVerb
	isImperative
	isFinite
	isOpener
)

var wordKinds = map[string]wordKind{}

func init() {
	for kind, words := range map[wordKind][]map[string]bool{
		isFiller: {fillers}, isPerson: {persons}, isSomebody: {somebodies}, isModal: {modals}, isMay: {mays}, isNegation: {negations}, isPast: {pasts},
		isExample: {examples}, isHarm: {harms}, isStand: {stands}, isFit: {fits}, isWant: {wants}, isNormalVerb: {normalVerbs}, isImperative: {imperatives}, isFinite: {finite},
		isOpener: {conditions, temporal, waits, reasons, {"as": true, "only": true, "in": true, "even": true, "so": true, "should": true}},
	} {
		for _, set := range words {
			for w := range set {
				wordKinds[w] |= kind
			}
		}
	}
}
