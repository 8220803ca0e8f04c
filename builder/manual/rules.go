package manual

import (
	"tankside/builder/finding"
	"tankside/builder/record"
)

// What the reader finds. The names are part of the manual's format: articles accept findings by them.
var (
	ruleUnreadable = finding.Rule{
		Name: "unreadable-file", Severity: finding.Result,
		Finds:  "a file that is not UTF-8 text, has NUL bytes or control characters in it, or cannot be opened",
		Why:    "What cannot be read is missing from the manual, and nobody at the tank would know.",
		Source: "CommonMark 0.31.2, section 2.3; RFC 3629 (UTF-8)",
	}
	ruleConflict = finding.Rule{
		Name: "two-versions", Severity: finding.Result,
		Finds:  "a mark that version control leaves where two versions of a text could not be joined",
		Why:    "Both versions would be printed one after the other, and nobody has decided which of them holds.",
		Source: "common practice of version control: lines that begin with seven of <, |, = or >, from memory, to be confirmed by the process engineer",
	}
	ruleLedger = finding.Rule{
		Name: "unreadable-ledger", Severity: finding.Result,
		Finds:  "a line of the ledger that is no entry of an edition",
		Why:    "The edition of that line would be missing, and its number could be given to another one.",
		Source: "control of documented information, ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer; the manual's format",
	}
	ruleRivals = finding.Rule{
		Name: "one-number-twice", Severity: finding.Untidy,
		Finds:  "two editions of different content with one number, the newest, as after two people have entered one each and their work was joined",
		Why:    "Two people with that number in hand would read different things; the codes alone tell the copies apart.",
		Source: "control of documented information, ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer",
	}
	ruleLost = finding.Rule{
		Name: "missing-from-ledger", Severity: finding.Untidy,
		Finds:  "a number of an edition, lower than the newest, that the ledger does not have",
		Why:    "Somebody has taken an entry out, and nobody can say any more what that edition was.",
		Source: "control of documented information, ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer",
	}
	ruleTooLarge = finding.Rule{
		Name: "too-large", Severity: finding.Result,
		Finds:  "a file larger than its sort may be, a block of text, a table, a tree, headings or a row of lists without end, or a manual with too many files",
		Why:    "A file of this size is there by mistake, and would make the manual slow at the tank.",
		Source: "our own limit: 1 MiB for a text, 32 KiB for a block without an empty line, 500 words for a sentence and 15 000 sentences, 64 columns and 20 000 cells of tables, 24 lists and quotes within each other, 200 steps and 600 answers of a tree, 50 calculators, 300 safety messages, 1 000 headings, 8 MiB for a picture, 100 000 files",
	}
	ruleNotRegular = finding.Rule{
		Name: "not-a-file", Severity: finding.Result,
		Finds:  "a link, device or pipe where a file or folder should be",
		Why:    "A link can lead out of the manual, to a file that is not meant for publication.",
		Source: "our own limit: an edition holds nothing from outside the manual",
	}
	ruleStray = finding.Rule{
		Name: "stray-file", Severity: finding.Untidy,
		Finds:  "a file that belongs to no part of the manual",
		Why:    "It is not published; whoever wrote it may think it is.",
		Source: "the manual's format",
	}
	ruleSameAddress = finding.Rule{
		Name: "same-address", Severity: finding.Result,
		Finds:  "two files with one address, capitals apart, or two articles of a kind with one name",
		Why:    "On Windows and macOS, and on many memory sticks, the one would replace the other.",
		Source: "FAT and NTFS compare names without regard to case",
	}
	ruleUnusableName = finding.Rule{
		Name: "unusable-file-name", Severity: finding.Result,
		Finds:  "a file or folder name that some computers cannot store or links cannot name",
		Why:    "The edition could not be copied to a stick or a Windows desk, or a link to the page would break.",
		Source: "Microsoft: Naming Files, Paths, and Namespaces (reserved names and characters), from memory, to be confirmed by the process engineer",
	}
	ruleUntidyName = finding.Rule{
		Name: "untidy-file-name", Severity: finding.Untidy,
		Finds:  "a file name that is not lower-case words joined by hyphens",
		Why:    "Headers name articles by their file names; one way of writing them is easier to remember.",
		Source: "the manual's format",
	}
	// UnusableTheme is found by whoever makes the pages.
	UnusableTheme = finding.Rule{
		Name: "unusable-theme", Severity: finding.Result,
		Finds:  "a file of the shop's own theme with which the pages cannot be made",
		Why:    "Nothing could be published with it.",
		Source: "the manual's format; text/template and html/template of Go's library",
	}
	ruleNoHeader = finding.Rule{
		Name: "no-header", Severity: finding.Result,
		Finds:  "an article without a header between two lines of three hyphens",
		Why:    "Without a header the article has no title, no revision and no place in the model.",
		Source: "the manual's format",
	}
	ruleYAML = finding.Rule{
		Name: "unreadable-yaml", Severity: finding.Result,
		Finds:  "YAML that cannot be read, or uses anchors, aliases, tags, control characters or deep nesting",
		Why:    "Nothing of the header can be used, so nothing of it is checked.",
		Source: "YAML 1.2.2; anchors and aliases are refused because they can be made to grow without end",
	}
	ruleUnknownKey = finding.Rule{
		Name: "unknown-key", Severity: finding.Result,
		Finds:  "a key that the manual's format does not have",
		Why:    "What stands under an unknown key is lost: nothing checks it and no page shows it.",
		Source: "the manual's format",
	}
	ruleDuplicateKey = finding.Rule{
		Name: "duplicate-key", Severity: finding.Result,
		Finds:  "a key, id or term that is given twice",
		Why:    "Only one of the two counts, and readers of the file cannot tell which.",
		Source: "YAML 1.2.2, section 3.2.1.1: keys of a mapping are unique",
	}
	ruleMissingKey = finding.Rule{
		Name: "missing-key", Severity: finding.Result,
		Finds:  "a required key that is missing: title, summary, station, revision, approval, review date, sources …",
		Why:    "Readers must be able to see what they read, who approved it, whether it is still in force and where it comes from.",
		Source: "the manual's format; control of documented information, ISO 9001:2015, 7.5.2 and 7.5.3",
	}
	ruleWrongValue = finding.Rule{
		Name: "wrong-value", Severity: finding.Result,
		Finds:  "a value of the wrong sort: a list for a text, a date that is none, a text that is too long",
		Why:    "A value that cannot be used is as good as missing.",
		Source: "the manual's format",
	}
	ruleWrongQuantity = finding.Rule{
		Name: "wrong-quantity", Severity: finding.Result,
		Finds:  "a quantity without unit, with a wrong unit or that cannot be read",
		Why:    "A number in the wrong unit, or in none, is the shortest way to a ruined load.",
		Source: "NIST SP 811 (2008) for units; the manual's format for which are accepted where",
	}
	ruleRepeatedFact = finding.Rule{
		Name: "repeated-fact", Severity: finding.Result,
		Finds:  "a key in the header of a translation that the original's header says, or the inputs of a calculator there",
		Why:    "Two places for one number sooner or later hold two numbers, and readers of one language would work by the wrong one.",
		Source: "the manual's format",
	}
	ruleUnknownWord = finding.Rule{
		Name: "unknown-word", Severity: finding.Result,
		Finds:  "a word that is not in the list that its key takes",
		Why:    "The checks know the words of the list only; with any other the article would pass unchecked.",
		Source: "the manual's format; UN GHS Annex 3 for hazard codes",
	}
	ruleUnknownName = finding.Rule{
		Name: "unknown-name", Severity: finding.Result,
		Finds:  "a name for which there is no article, tank, rinse, dryer or role",
		Why:    "Whatever the manual says about it cannot be checked or shown.",
		Source: "the manual's format",
	}
	ruleRawHTML = finding.Rule{
		Name: "raw-html", Severity: finding.Result,
		Finds:  "HTML in the text of an article",
		Why:    "HTML is left out of pages and of print, scripts most of all, so the reader would miss what it says.",
		Source: "our own limit: an edition runs no script but its own",
	}
	ruleTopHeading = finding.Rule{
		Name: "top-heading", Severity: finding.Untidy,
		Finds:  "a heading of level 1 in the text",
		Why:    "The title in the header is the page's heading of level 1; people who listen to the page would hear two.",
		Source: "WCAG 2.2, success criterion 1.3.1; the manual's format",
	}
	ruleUnclearSignal = finding.Rule{
		Name: "unclear-signal", Severity: finding.People,
		Finds:  "a safety message that would not be shown as one",
		Why:    "A warning that looks like any other sentence is not read in time.",
		Source: "ANSI Z535.6 and ISO 3864-2: signal words in capitals, set apart from the text (from memory, to be confirmed by the safety officer)",
	}
	ruleCalculatorText = finding.Rule{
		Name: "unreadable-calculator", Severity: finding.Result,
		Finds:  "a calculator's listing that has no name or cannot be read",
		Why:    "The page would show no result.",
		Source: "the manual's format",
	}
	ruleSigns = finding.Rule{
		Name: "unreadable-signs", Severity: finding.Result,
		Finds:  "a “Seen with.” paragraph with a sentence that cannot be read",
		Why:    "What it says would not count when causes are ranked by what is seen, and nobody would notice.",
		Source: "the manual's format",
	}
	ruleUnsafePicture = finding.Rule{
		Name: "unsafe-picture", Severity: finding.Result,
		Finds:  "a picture that holds a script, loads something from elsewhere or is not what its name says",
		Why:    "A picture with a script in it could run on every tablet that opens it.",
		Source: "SVG 2, chapter 16; our own limit: an edition runs no script but its own",
	}
)

// Rules are the rules of the reader, in the order in which a file meets them.
func Rules() []finding.Rule {
	return append([]finding.Rule{
		ruleNotRegular, ruleTooLarge, ruleUnreadable, ruleConflict, ruleStray, ruleUnusableName, ruleUntidyName, UnusableTheme, ruleSameAddress,
		ruleNoHeader, ruleYAML, ruleUnknownKey, ruleDuplicateKey, ruleMissingKey, ruleWrongValue, ruleWrongQuantity, ruleRepeatedFact,
		ruleUnknownWord, ruleUnknownName, ruleMoved, ruleRawHTML, ruleTopHeading, ruleUnclearSignal, ruleCalculatorText, ruleSigns, ruleUnsafePicture,
		ruleLedger, ruleRivals, ruleLost,
	}, record.Rules()...)
}
