// Package line works out what stands in each rinse of the shop while parts run: which baths reach it and how much of them, how alkaline it is,
// its pH and its temperature. It joins the shop file, the chemistries and the parts' process sheets to the sums of package rinse and package
// water.
//
//	for _, s := range line.Of(m) {
//		if len(s.Missing) > 0 { … } // what has to be known first
//	}
//
// A tank's drag-out runs into the first rinse of the process sheets that end in that tank, and from there on to the next of their lists; where no
// sheet says, into the first rinse of the shop. Where sheets go different ways, each way is taken to carry all of it: it is more than in truth,
// never less. What one wash carries into another is left out.
//
// Nothing is made up: where a figure is missing there is no pH but the name of what is missing. Bounds are those of the figures given and of what a
// bath may hold (see water.Liquid); a closed vessel is reckoned with, so that carbon dioxide from the air, which brings an alkaline rinse down in
// hours, and lime that falls out are left out, and so is what already sits in the parts' pores.
package line
