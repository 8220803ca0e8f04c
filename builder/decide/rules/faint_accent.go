package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/themes"
	"tankside/themes/contrast"
)

// faintAccent finds an accent colour that does not stand apart from light paper.
// It prevents that the mark under the current station and under links is lost in a bright room.
// The limit is WCAG 2.2, success criterion 1.4.11.
var faintAccent = finding.Rule{
	Name: "faint-accent", Severity: finding.Untidy,
	Finds:  "an accent colour with less than 3:1 against the paper",
	Why:    "What it marks is not seen in a bright room or with weak eyes; the pages show it darker.",
	Source: "WCAG 2.2, success criterion 1.4.11",
}

func findFaintAccent(p *proof) []finding.Finding {
	look := p.Shop.Look
	if look.Accent == "" {
		return nil
	}
	ground, err := themes.New(nil).Read("styles/10-ground.css")
	if err != nil {
		return nil // without its own styles the command publishes nothing
	}
	light, _, err := contrast.Properties(ground)
	accent, err2 := contrast.Parse(look.Accent)
	if err != nil || err2 != nil {
		return nil // the reader has refused what is no colour
	}
	ratio := contrast.Ratio(accent, light["paper"])
	if ratio >= 3 {
		return nil
	}
	better := accent.Until(light["ink"], light["paper"], 3)
	return []finding.Finding{faintAccent.At(look.AccentAt, fmt.Sprintf("The accent %s has a contrast of only %.1f:1 with the paper.", look.Accent, ratio), fmt.Sprintf("Write for example: accent: %q", better.String()))}
}
