package page

import (
	"fmt"

	"tankside/builder/manual"
	"tankside/themes/contrast"
)

// types are the system's letters by name.
var types = map[string]string{
	"sans":  `system-ui, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif`,
	"serif": `ui-serif, "Charter", "Noto Serif", "DejaVu Serif", serif`,
}

// lookStyles are what the shop has chosen over what the theme's styles say. The accent is made lighter for dark paper, darker for light, no
// more than the 3:1 of WCAG 2.2, success criterion 1.4.11, asks for; that it had to be is the proof-reader's to say.
func lookStyles(theme []byte, look manual.Look) (string, error) {
	own := ""
	if stack := types[look.Type]; stack != "" {
		own = fmt.Sprintf(":root { --type: %s; }\n", stack)
	}
	if look.Accent == "" {
		return own, nil
	}
	accent, err := contrast.Parse(look.Accent)
	if err != nil {
		return "", err
	}
	light, dark, err := contrast.Properties(theme)
	if err != nil {
		return "", err
	}
	const least = 3
	return own + fmt.Sprintf(":root { --accent: %s; }\n@media (prefers-color-scheme: dark) { :root { --accent: %s; } }\n@media print { :root { --accent: #000; } }\n",
		accent.Until(light["ink"], light["paper"], least), accent.Until(dark["ink"], dark["sheet"], least)), nil
}

// mark is the file of the shop's mark.
func (s *site) mark() string {
	if own := s.pics[s.Manual.Shop.Look.Mark]; own != "" {
		return own
	}
	return s.pics["drawings/mark.svg"]
}
