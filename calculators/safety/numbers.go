package safety

// Number is a number by which the calculators warn or judge, with what it rests on.
type Number struct {
	Says   string
	Source string
}

// Numbers lists those by which somebody or something could be hurt if they were wrong. They are in the calculators where they are used; whoever
// answers for a manual goes through them here.
var Numbers = []Number{
	{"A heated liquid stays 16.7 K (30 °F) below its flash point.", "U.S. OSHA, 29 CFR 1910.106(a)(19)(iii) and (iv)"},
	{"No margin below the flash point covers the mist that sound makes.", "common practice, no source"},
	{"Water scalds deep in 30 s at 54 °C and in 5 s at 60 °C.", "US Consumer Product Safety Commission, tap water scalds, publication 5098 (as quoted)"},
	{"Water scalds deep in 1 s at 70 °C; skin held in it is hurt from 44 °C.", "Moritz and Henriques, American Journal of Pathology 23 (1947), from memory, to be confirmed by the safety officer"},
	{"From 55 °C a bath and what comes out of it are warned of as scalding, from 44 °C as hurting skin held in them.", "our own limit, by the two above"},
	{"Where the sound alone warms a bath, it is stopped 3 K above the set-point, and never above the chemistry's ceiling or the flash point's margin.", "common practice, no source"},
	{"0.6 of the sound's electrical power ends as heat in the bath, 0.4 to 0.8 in the band.", "from memory, to be confirmed by a measurement with a thermometer and a clock"},
	{"A bath of more than 30 % concentrate is called unusual.", "our own limit"},
	{"More than 1 kg of parts for 10 L of bath weakens the sound inside the basket.", "common practice, no source"},
	{"From 20 to 30 kHz soft and polished metal, optics and thin parts are pitted.", "ASTM G131 (20–25 kHz on aluminium and silver); 30 kHz is common practice, no source"},
	{"Parts and racks from a dryer of 60 °C and more are warned of as hot.", "our own limit, by the scalding of water at 60 °C"},
}
