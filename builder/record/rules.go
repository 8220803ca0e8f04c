package record

import "tankside/builder/finding"

// What is found in records. What concerns a whole file keeps a manual from being published, since a chart would mislead; one bad cell or row does not: it is
// not used, and the pages say how many are not.
var (
	ruleUnreadable = finding.Rule{
		Name: "unreadable-record", Severity: finding.Result,
		Finds:  "a record that is no table: not text, without heads or a column “when”, with more rows or columns than a record may have",
		Why:    "What cannot be read is missing from the charts, and nobody at the tank would know.",
		Source: "RFC 4180 (2005); RFC 3629 (UTF-8); RFC 2781 (UTF-16); our own limit: 100,000 rows, 64 columns, 24 MiB",
	}
	ruleHead = finding.Rule{
		Name: "unclear-head", Severity: finding.Result,
		Finds:  "a head of a record that is given twice, or has no unit or one that does not measure its quantity",
		Why:    "Every number under it could be read in another unit, and a chart would mislead.",
		Source: "the record's format; NIST SP 811 (2008) for units",
	}
	ruleDecimal = finding.Rule{
		Name: "two-decimal-signs", Severity: finding.Result,
		Finds:  "a record whose numbers can be read with a decimal point and with a decimal comma, or that has both",
		Why:    "1,234 is one and a quarter or a thousand and more: a factor of a thousand.",
		Source: "ISO 80000-1:2022, 7.2.2: both signs are in use",
	}
	ruleRow = finding.Rule{
		Name: "broken-row", Severity: finding.Untidy,
		Finds:  "a row of a record that has more or fewer cells than heads, a stray quotation mark, or no time that can be read",
		Why:    "Its numbers cannot be told to belong to a column or a day, so none of them is used.",
		Source: "RFC 4180, section 2; ISO 8601-1:2019",
	}
	ruleCell = finding.Rule{
		Name: "unreadable-reading", Severity: finding.Untidy,
		Finds:  "a cell of a record that is no number, no work that the format knows, or too long",
		Why:    "It is not used, and the chart has a gap where there was a reading.",
		Source: "the record's format",
	}
	ruleImpossible = finding.Rule{
		Name: "impossible-reading", Severity: finding.Untidy,
		Finds:  "a reading that cannot be: pH 15, a strength above 100 %, a bath of water at 140 °C",
		Why:    "It is a slip of the pen or a wrong unit; it is not used, for it would bend mean and limits.",
		Source: "our own limits, told in FORMAT.md",
	}
	ruleOrder = finding.Rule{
		Name: "out-of-order", Severity: finding.Untidy,
		Finds:  "rows of a record that do not follow each other in time, or of which some say their time zone and some do not",
		Why:    "Charts join neighbours; a date that was mistyped shows as a row out of place.",
		Source: "ISO 8601-1:2019; our own limit",
	}
	ruleTwice = finding.Rule{
		Name: "reading-twice", Severity: finding.Untidy,
		Finds:  "a row of a record that is there twice, or two rows with one id",
		Why:    "A reading that counts twice narrows the limits; of two rows with one id nobody can tell which holds.",
		Source: "our own limit: an id names one row",
	}
	ruleCorrection = finding.Rule{
		Name: "unclear-correction", Severity: finding.Untidy,
		Finds:  "a row of a record that replaces itself or a row that is not there, or two rows that replace the same one",
		Why:    "Of two corrections one is not charted, and whoever made it does not know; a correction of nothing may belong to another tank.",
		Source: "our own rule: corrections are added, and each row is replaced by one at most",
	}
)

// Rules are the rules of this package, in the order in which a file meets them.
func Rules() []finding.Rule {
	return []finding.Rule{ruleUnreadable, ruleHead, ruleDecimal, ruleRow, ruleCell, ruleImpossible, ruleOrder, ruleTwice, ruleCorrection}
}
