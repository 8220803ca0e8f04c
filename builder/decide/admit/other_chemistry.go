package admit

import "tankside/builder/finding"

// OtherChemistry finds washes in a tank that holds something else today.
// It prevents that a part is washed in the wrong bath by an operator who reads the tank's name only. The limit is the shop file.
var OtherChemistry = finding.Rule{
	Name: "other-chemistry", Severity: finding.Parts,
	Finds:  "a wash with a chemistry that its tank does not hold today",
	Why:    "The operator goes by the name of the tank, and the part meets a bath that nobody chose for it.",
	Source: "the shop file, chemistry of the tank",
}

// holds tells whether the tank of a wash holds what the sheet asks for.
func (d *deciding) holds(b *Bath) {
	if !b.Sheet || b.Tank == nil || b.Tank.Chemistry.Name == b.Chemistry.Name {
		return
	}
	if c := named(d.t.Chemistries, b.Tank.Chemistry.Name); c != nil {
		d.add(against(&OtherChemistry, Say("{tank} holds {chemistry} today, not {chemistry}.", Title(b.Title), within(c), within(b.Chemistry))).
			mend("Name the tank that holds it, or change the bath in the shop file when it has been changed on the line.").by(b.Tank.Chemistry.At).value(b.At))
		return
	}
	d.add(unknown(Say("What {tank} holds today is not known to this manual: not checked.", Title(b.Title))).by(b.Tank.At))
}
