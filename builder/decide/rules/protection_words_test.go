package rules

import "testing"

// The words for what people wear are those that people write.
func TestProtectiveEquipmentIsKnownByItsWords(t *testing.T) {
	for _, c := range []struct {
		item string
		add  string // of the need
		met  bool
	}{
		{"goggles", "goggles", true},
		{"tight-fitting chemical goggles", "goggles", true},
		{"full-face shield", "goggles", true},
		{"visor", "goggles", true},
		{"gafas panorámicas", "goggles", true},
		{"safety glasses", "goggles", false},
		{"no goggles needed", "goggles", false},
		{"apron", "goggles", false},
		{"long nitrile gauntlets", "chemical gloves", true},
		{"guantes de nitrilo", "chemical gloves", true},
		{"gloves", "chemical gloves", true},
		{"cotton gloves", "chemical gloves", false},
		{"cut-resistant gloves", "chemical gloves", false},
		{"without gloves", "chemical gloves", false},
		{"half mask with filter ABEK", "breathing protection", true},
		{"respirator", "breathing protection", true},
		{"extraction running", "breathing protection", true},
		{"goggles", "breathing protection", false},
	} {
		for _, n := range needs {
			if n.add == c.add && n.what != "eye protection" && n.met([]string{c.item}) != c.met {
				t.Errorf("%q for %s: %v", c.item, n.what, !c.met)
			}
		}
	}
	for _, n := range needs {
		if n.what == "eye protection" && !n.met([]string{"safety glasses"}) {
			t.Error("safety glasses are eye protection")
		}
	}
}

// A first aid is known by what it orders, and not by its subject alone.
func TestFirstAidIsKnownByItsMeasure(t *testing.T) {
	for _, c := range []struct {
		harm, text string
		named      bool
	}{
		{"fluoride", "Rub in calcium gluconate gel, 2.5 %.", true},
		{"fluoride", "Frote gel de gluconato de calcio.", true},
		{"fluoride", "Hydrofluoric acid: much water, and hospital.", false},
		{"sulfide", "Do not go in after somebody who has collapsed.", true},
		{"sulfide", "Nobody enters the pit without breathing apparatus.", true},
		{"sulfide", "Never enter after a colleague.", true},
		{"sulfide", "No entre nadie por quien yace.", true},
		{"sulfide", "Go in at once and pull the person out.", false},
		{"cyanide", "No mouth-to-mouth; oxygen.", true},
		{"cyanide", "Call an ambulance.", false},
		{"swallowed", "Do not induce vomiting.", true},
		{"swallowed", "Never make them sick.", true},
		{"swallowed", "No provoque el vómito.", true},
		{"swallowed", "Make the person vomit.", false},
		{"shock", "Switch off the current before you touch anybody.", true},
		{"shock", "Do not touch the person until the power is off.", true},
		{"shock", "Desconecte la corriente antes de tocar.", true},
		{"shock", "Pull the person away.", false},
		{"eyes", "Eyes: water for 15 min.", true},
		{"eyes", "Eyes: water for 30 minutes.", true},
		{"eyes", "Eyes: water for 5 min.", false},
		{"skin", "Skin: shower, clothes off, 20 min.", true},
		{"skin", "Skin: wipe it off.", false},
	} {
		named := false
		for _, known := range measures[c.harm].known {
			named = named || known.MatchString(c.text)
		}
		if named != c.named {
			t.Errorf("%s: %q: %v", c.harm, c.text, named)
		}
	}
}
