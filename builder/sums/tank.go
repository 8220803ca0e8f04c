package sums

// OfTank are the calculators on the page of each tank, in their order.
var OfTank = []string{"dilution", "heat-up", "degas", "holding"}
