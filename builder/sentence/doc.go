// Package sentence reads the running text of an article into statements that rules can compare with the model: which quantity is said, what
// it is said of, and in what mood.
//
//	names := sentence.NewNames(things)                    // what the manual's text may speak of, by name
//	for _, s := range sentence.Read(body, names, resolve) {
//		for _, q := range s.Quantities { … q.About, q.Relation, s.Clauses[q.Clause].Mood … }
//	}
//
// It reads English alone. Translations are compared with their originals, by rules of their own.
//
// # From text to sentences
//
// The text is parsed by package manual, as everywhere. Each paragraph, list item, cell of a table, block quote and heading becomes a
// [Block]: its words without markup, with the place of each in the source. Struck-out text, code between back-ticks and listings are no
// statements. A cell knows the first cell of its row and the head of its column. A block is parted into sentences at full stops, question
// marks and exclamation marks that end one: not after “approx.”, and not inside a number.
//
// # From sentences to clauses
//
// A sentence is parted into clauses at colons, semicolons, dashes and brackets, at words such as “if”, “until”, “because” and “which”, and at
// a comma or “and” before a new verb. Each clause has a mood:
//
//   - Do: a command, or what must, should, has to or may be done: “Heat it to 80 °C”, “The bath must be at 62 °C”, “Brass is washed at 45 °C”;
//     also what stands behind “until” in a command, and behind “before” or “until” in a negated one: “Do not start before it is at 80 °C”
//     asks for 80 °C.
//     A verb that stands in no list is a command where an article or the name of a tank follows it at the head of its clause: “Drive the bath to …”.
//   - MustNot: a negated command: “Never bring Wash 1 to 80 °C”.
//   - Able: what something stands or fits: “Brass stands 80 °C”.
//   - Is: a statement of fact. Fragment: words without a verb, as on a card: “Wash 1, 62 °C, ten minutes”.
//   - Was, If, Ask, Example: what was, a condition, a question, an example. No rule compares these.
//
// [Clause.Harmful] tells that a clause speaks of something that goes wrong; [Sentence.Harmful] that one of them does.
//
// What the next sentence of a block forbids or calls wrong is [Sentence.TakenBack]: “Add bleach. Do not do it.”
//
// # Quantities
//
// A quantity is a number, or a number word, with its unit; package quantity knows the units. Its [Relation] is what stands before or behind
// it: to, at most, at least, above, below, by, from, about. Negation is folded into it: “never above 75 °C” is at most 75 °C, “never below
// 60 °C” at least 60 °C. What is neither a set-point nor a limit of the thing, such as “5 °C hotter” or “within 3 °C”, is a difference.
//
// # Subjects
//
// A name (a tank of the shop file, the title of an article, a substance) or a link is a [Mention]. A quantity is about the nearest mention
// before it in its clause, then behind it, then in the sentence; then what “it”, “the bath” or “the tank” means, which is the thing named last
// in the block; then nothing: the rule takes the article's own subject. A mention that only says where (“beside Wash 1”) is not what a
// quantity is about. What the quantity measures may have a word of its own, its [Quantity.Attribute]: “flash point”, “set point”, “humidity”,
// “the room”; a rule compares only what it knows.
//
// The reader would rather say nothing than guess: a clause that fits none of this is Is without a subject, and rules leave it alone.
package sentence
