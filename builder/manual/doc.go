// Package manual reads a shop's manual: a folder of markdown with YAML headers, into one typed model with positions.
//
//	root, err := os.OpenRoot(folder)
//	m, findings, err := manual.Read(ctx, root.FS())
//
// The [Manual] is immutable once read. Everything that is wrong with a file is a finding with file, line and column, and with what to do;
// the file is read as far as it can be. An error means that there is no manual to speak of.
//
// # The folder
//
// A manual is a folder with shop.yaml, glossary.yaml, articles and pictures. The first folder of an article's path says its kind, as
// [KindReference] lists them; sub-folders are allowed. File names are lower-case words joined by
// hyphens. An article's name is its file name without .md, unique within its kind, and headers name articles by it. Pictures lie in pictures,
// and files of the shop's own look in theme (see package themes). Names that begin with a full stop, and what editors leave behind, are
// passed over.
//
// # An article
//
// A YAML mapping between two lines of three hyphens, then CommonMark with the tables, strikethrough and task lists of GitHub Flavored
// Markdown. Kinds and keys are declared once, in kinds.go and keys.go: [HeadKeys], [Keys], [ShopKeys] and [GlossaryKeys] give them for print.
// FORMAT.md beside this package is the same for people who write articles; a test keeps the two in step.
//
// There is no heading of level 1 in the text (the title is the header's), no raw HTML, and there are no YAML anchors, aliases or tags.
//
// Links are relative links to .md files and to #headings; [Manual.Resolve] gives where one leads. A heading's address is made by [Anchor].
//
// A safety message is a block quote whose first word in bold is a signal word of ANSI Z535.6: DANGER, WARNING, CAUTION, NOTICE.
//
// A calculator is a fenced block with the info string “calculator NAME” whose lines are its input values.
//
// In a symptom article each section of level 2 is a step or a remedy: see package tree.
//
// # How to add a key, or a kind of article
//
// A key is one line in kinds.go, which says its name, what it means, an example and where its value goes, and one field of the model.
// Decoding, suggestions for misspelt keys, and the printed reference follow from it; of a key that names articles, tanks or harms of
// first aid, “where it is used”, the line on the page and the rules follow as well: [Article.References], [Article.Vessels], [Article.FirstAid].
// The words that a key takes are listed in words.go.
//
// A kind is one entry of kindTable, one constant and, where it has facts, one Facts type with its field in [Article]. Everything that goes
// through the kinds asks the table: see [Declaration]. [Try] puts one into it for a test.
//
// # What is refused
//
// Files that are too large (an article may have 1 MiB), not UTF-8, or no regular files; links in the folder, wherever they lead; names that
// some computer cannot store; YAML that could grow without end; pictures that run or load something. Each is a finding, and what was
// refused is not in the model.
package manual
