// Package relate derives from a manual what nobody should keep by hand: which article speaks of which, which chemistry lifts which soil,
// and the table by which package admit decides what may go where.
//
//	used := relate.UsedBy(m)                 // "used by"
//	soils := relate.Removes(m, chemistry)    // soils × chemistries
//	table := relate.Table(m)                 // materials, soils, tanks and chemistries: answer := table.Answer(question)
//	answer := relate.Sheet(m, part)          // what a part's process sheet does to it
//	known := relate.Causes(m)                // what is seen with which cause: answer := known.Model.Explain(looks)
package relate
