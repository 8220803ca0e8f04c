// Package asked reads what stands in the search field where it is more than words to look for: an amount that is wanted in another unit, a sum, or
// whether something may go into a bath. The page and the command ask the same functions, which ask the calculators (package calculators) and the one
// decision (package admit); nothing is worked out here.
//
// # The grammar
//
//	question   = conversion | sum | load
//	conversion = AMOUNT ("in" | "to" | "into" | "as" | "=" | "->" | "en" | "a") UNIT          140 F in C, 0.5 US gal in L
//	           | UNIT NUMBER ("in" | …) UNIT                                                  °dH 12 in ppm
//	           | "how many" UNIT ("in" | "is" | "are") AMOUNT                                 how many litres in 5 US gal
//	sum        = VOLUME or TANK, with a STRENGTH, with a heating, or with both; in any order  60 L at 1:40; 3 % v/v of 60 L; wash 1 at 3 % v/v
//	heating    = TEMPERATURE "to" TEMPERATURE, with the POWER of the heater or without        120 L 12 to 62; 120 L from 12 to 62 °C with 6 kW
//	load       = MATERIAL…, one TANK or CHEMISTRY, one SOIL or none; in any order             brass in wash 1; brass, rust, wash 2
//
// Between these stand the words that carry no meaning there (small.go), and no others: one word more, and the text is words to look for.
// A number with "to" that has no degrees has those of the family of units that the volume is written in, °C beside litres.
//
// # What is not said is not guessed
//
// What can be read in several ways is answered in each of them, under a sentence that says what decides: a gallon, quart or fluid ounce of which
// nobody says whether it is the US or the imperial one; a per cent of which nobody says of what; a name that several articles share or that is not an
// article's own; a heating without a heater, with that of each tank that holds as much. What cannot be read at all until something is said, such as
// ounces in a gallon, has that sentence alone.
package asked
