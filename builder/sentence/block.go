package sentence

import "tankside/builder/manual"

// Block is a piece of running text as the manual's reader keeps it: words without markup.
type Block = manual.Block

// The kinds of block.
const (
	Paragraph = manual.ParagraphBlock
	Item      = manual.ItemBlock
	Cell      = manual.CellBlock
	Quote     = manual.QuoteBlock
	Heading   = manual.HeadingBlock
)
