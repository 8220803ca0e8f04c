package handout

import "slices"

// group are blocks that stand together. What they are about, a heading, is said again where they begin a side.
type group struct {
	about  Block
	blocks []Block
}

// mostSides is how many sides are filled by measure. What then remains stands on one more, however much it is: nobody prints that, and the finding is there.
const mostSides = 8

// fill puts groups onto as many sides as it takes, in their order. A message of the same signal word as the one above it goes on in that one's frame.
func fill(flow []group, f *Format) []Side {
	var sides []Side
	var height, last float64 // of the side that is being filled, and of its last block, in em
	for _, g := range flow {
		if n := len(sides); n > 0 {
			side := &sides[n-1]
			if n > mostSides {
				side.Blocks = joined(side.Blocks, g.blocks)
				continue
			}
			blocks := g.blocks
			before := height
			if goesOn(&side.Blocks[len(side.Blocks)-1], &blocks[0]) { // its last block grows
				blocks = joined(side.Blocks[len(side.Blocks)-1:], blocks)
				before -= last
			}
			more, end := taken(blocks, f)
			if (before+more)*f.em() <= f.room(n-1) {
				side.Blocks = joined(side.Blocks, g.blocks)
				height, last = before+more, end
				continue
			}
		}
		blocks := g.blocks
		if g.about.Sort != "" && blocks[0].Sort != Heading {
			blocks = append([]Block{g.about}, blocks...)
		}
		sides = append(sides, Side{blocks})
		height, last = taken(blocks, f)
	}
	return sides
}

// taken is the height of blocks and that of the last of them, in em.
func taken(blocks []Block, f *Format) (all, last float64) {
	for i := range blocks {
		last = blocks[i].room(f)
		all += last
	}
	return all, last
}

// goesOn tells whether a block goes on with what the one before it has begun.
func goesOn(before, b *Block) bool {
	return b.Sort == before.Sort && (b.Sort == Message && b.Head == before.Head || (b.Sort == List || b.Sort == Run || b.Sort == Checks || b.Sort == Facts && b.Across == 1) && b.Class == before.Class)
}

// joined puts blocks behind others, neither of which it changes.
func joined(before, behind []Block) []Block {
	all := slices.Clone(before)
	for _, b := range behind {
		if n := len(all); n > 0 && goesOn(&all[n-1], &b) {
			all[n-1].Rows = slices.Concat(all[n-1].Rows, b.Rows)
			continue
		}
		all = append(all, b)
	}
	return all
}

// apart makes a group of each row of messages, lists, checks and facts one below the other, and of each other block with the headings before it, so that a side may end between any two. These say
// their heading again.
func apart(about Block, blocks []Block) []group {
	var flow []group
	var waiting []Block
	for _, b := range blocks {
		switch {
		case b.Sort == Heading:
			waiting = append(waiting, b)
		case b.Sort == Message || b.Sort == List || b.Sort == Run || b.Sort == Checks || b.Sort == Facts && b.Across == 1:
			again := about
			if b.Sort != Message && len(waiting) > 0 {
				again = waiting[0]
			}
			for _, r := range b.Rows {
				one := b
				one.Rows = []Row{r}
				flow = append(flow, group{again, append(waiting, one)})
				waiting = nil
			}
		default:
			flow = append(flow, group{about, append(waiting, b)})
			waiting = nil
		}
	}
	if len(waiting) > 0 {
		flow = append(flow, group{about, waiting})
	}
	return flow
}

// stretched gives the grid to be written in of a side so many lines as there is room for, at least and at most.
func (s *Side) stretched(f *Format, least, most int) Side {
	blocks := slices.Clone(s.Blocks)
	i := slices.IndexFunc(blocks, func(b Block) bool { return b.Sort == Grid && b.Lines > 0 })
	if i < 0 {
		return *s
	}
	for blocks[i].Lines = most; blocks[i].Lines > least; blocks[i].Lines-- {
		if side := (Side{blocks}); side.Room(f) <= f.room(0) {
			break
		}
	}
	return Side{blocks}
}
