package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// soundOnSensitiveDevice keeps sound away from what breaks by it inside, unseen: quartz crystals, MEMS, open bonded wires, and every
// material that says so itself. The maker's window for the device, as the material's frequency, lets it pass, on the
// condition that it is the maker's. What no sound may reach can be cleaned by hand or soaked where there is none: package admit then gives neither
// frequency nor time under ultrasonics.
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
		at, silent := x.silent()
		switch device, is := fact.One(x.Material.Features, devices...); {
		case !x.Sounds(), !silent && !is:
			return nil
		case !silent: // the window may be that of the metal alone
			return &Hit{
				Verdict: Conditions, Says: Say("{material} has electronic devices: sound is for them only where the maker of each device allows this frequency in writing.", titled(x.Material)),
				Brief:  Say("makers' word for each device"),
				Remedy: "Have the window of each device from its maker in writing, or clean without ultrasonics.", At: device.At,
			}
		}
		if x.Material.NoSound {
			says := Say("{material}: no sound may reach it, and {tank} has ultrasonics.", titled(x.Material), Title(x.Title))
			if !x.Tank.Power.Set && !x.Tank.Frequency.Set {
				says = Say("{material}: no sound may reach it, and the shop file does not say that {tank} has none.", titled(x.Material), Title(x.Title))
			}
			return &Hit{
				Verdict: No, Says: says,
				Remedy: "Clean it by hand or soak it in a vessel without ultrasonics, or not in a bath at all: see the material's article.", At: at,
			}
		}
		return &Hit{
			Verdict: No, Says: Say("{material} has electronic devices, and no maker's window for sound is given.", titled(x.Material)),
			Remedy: "Ask the maker of each device for its window and give it as frequency, or clean without ultrasonics.", At: at,
		}
	},
}

// silent tells whether no sound may reach the material here, and where that is said. A window that the material gives is the maker's for a
// device only where the material has the device: the frequency that brass stands says nothing of a sensor in it.
func (x *Meeting) silent() (finding.Place, bool) {
	m := x.Material
	if m.NoSound {
		return m.Frequency.At, true
	}
	if of, is := fact.One(m.Features, devices...); is {
		return of.At, !m.Frequency.Set
	}
	of, is := fact.One(x.Part, devices...)
	return of.At, is && !x.Windowed
}

// devices are the features of what sound breaks inside.
var devices = []string{"mems", "electronic"}
