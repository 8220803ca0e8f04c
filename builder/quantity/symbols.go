package quantity

// Symbols lists the symbols of every unit of a kind that is read, offered or not.
func Symbols(kind Kind) []string {
	var list []string
	for i := range units {
		if units[i].kind == kind {
			list = append(list, units[i].symbol)
		}
	}
	return list
}
