package admit

import "tankside/builder/finding"

// AttackOnPurpose is the same where the attack is the job: rust, scale and tarnish come off only outside the band.
// The limit is the material's own. That such a bath takes a written, timed instruction and an approval is common practice.
var AttackOnPurpose = finding.Rule{
	Name: "attack-on-purpose", Severity: finding.Result,
	Finds:  "a bath that takes off rust, scale or tarnish and leaves the pH that the material stands",
	Why:    "Such a bath goes on to eat the metal; it takes a written, timed instruction, a trial and an engineer's approval.",
	Source: "the material's article, ph; common practice, no source",
}
