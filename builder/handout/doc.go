// Package handout says what hangs at the tanks, lies on a clipboard or goes along in a pocket: cards, process sheets, first aid, logs and forms, each as
// blocks of text, filled from the manual and the shop file. Package page shows them, the proof-reader asks whether they fit.
//
// A sheet has sides of a [Format], the size of paper with the size of the letters. What stands on a side is never set smaller to fit: [Side.Room] reckons what
// it takes, by a font as wide as any, and what takes more than there is is a finding ([Misfits]). On paper it goes on on a further sheet, so that nothing is cut off.
//
// Amounts stand in both families of units, [Text]; texts of articles stand as they are written, and whoever shows them puts the other family's amounts beside.
// What is to be poured is rounded to what a measure shows: see Pour.
package handout
