package admit

// soaksLonger tells of materials whose time under ultrasonics is shorter than they soak in a bath that has none. That time counts for nothing there; but
// that nothing is known of a soak is said.
func (d *deciding) soaksLonger(b *Bath, all []Limit) {
	takes := b.set(Time)
	for i := range all {
		if l := &all[i]; l.What == Time && l.of == ofChemistry && !(b.Sheet && takes.Set) {
			takes = l.Limit
		}
	}
	if !takes.Set {
		return
	}
	for i := range all {
		if l := &all[i]; l.What == Time && l.of == ofMaterial && l.by != nil && l.High < takes.Low {
			d.add(unknown(Say("The limit of {material}, {limit}, is for ultrasonics. How long it stands a soak is not checked, and this one takes {time}: try it on scrap first.", within(l.by), Amount(l.Range), Amount(takes.Range))).by(l.At))
		}
	}
}

// soakTime is how long a sheet has parts in a bath without sound. Of a bath by itself nobody knows: the windows of chemistries and the limits of materials are
// for ultrasonics.
func soakTime(b *Bath) []Span {
	own := b.set(Time)
	if !b.Sheet || !own.Set {
		return nil
	}
	return []Span{{What: Time, Kind: own.Kind, Low: finite(own.Low), High: finite(own.High), amount: own.Range}}
}
