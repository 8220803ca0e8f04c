package relate

import (
	"tankside/builder/admit"
	"tankside/builder/finding"
)

// soundOnSensitiveDevice keeps sound away from what breaks by it inside, unseen: quartz crystals, MEMS, open bonded wires, and every
// material that says so itself. The maker's window for the device, as the material's frequency, lets it pass.
// Limit: a report of 30 of 30 boards with MEMS failed after one wash (electronics mailing list); common practice.
var soundOnSensitiveDevice = Exclusion{
	Rule: finding.Rule{
		Name: "sound-on-sensitive-device", Severity: finding.Parts,
		Finds:  "ultrasonics on a device or material that no sound may reach",
		Why:    "Crystals, MEMS and bonded wires break inside, and nothing is seen until the device fails.",
		Source: "a report of 30 of 30 boards failed; common practice, no source",
	},
	Group: "sound",
	In: func(x *Meeting) *Hit {
		if x.Tank == nil && !x.Frequency.Set {
			return nil // a chemistry by itself makes no sound
		}
		facts := x.Material.Material
		if facts.NoSound {
			return &Hit{
				Verdict: admit.No, Says: admit.Say("{material}: no sound may reach it.", titled(x.Material)),
				Remedy: "Clean it without ultrasonics, or not in a tank at all: see the material's article.", At: facts.Frequency.At,
			}
		}
		of, is := x.Has("mems", "electronic")
		if !is || facts.Frequency.Set {
			return nil
		}
		return &Hit{
			Verdict: admit.No, Says: admit.Say("{material} has electronic devices, and no maker's window for sound is given.", titled(x.Material)),
			Remedy: "Ask the maker of each device for its window and give it as frequency, or clean without ultrasonics.", At: of.At,
		}
	},
}
