package safety

// Number is a number by which the program warns or judges, with what it rests on.
type Number struct {
	People bool // somebody can be hurt if it is wrong; otherwise parts or a bath
	Holds  []Held
	Says   string
	Source string
}

// Held is a constant of this package and how the sentence writes it.
type Held struct{ Const, Written string }

const (
	byOfficer  = ", to be confirmed by the safety officer"
	byEngineer = ", to be confirmed by the process engineer"
	practice   = "common practice, no source"
)

// Numbers lists those by which somebody or something could be hurt if they were wrong: whoever answers for a manual goes through them on the page
// "What rests on what". A constant of this package that it does not hold fails a test, and so does a number that the decision or a calculator
// compares with and that neither stands here nor is told as none that decides about harm, in testdata/numbers-apart.txt.
var Numbers = []Number{
	{true, []Held{{"FlashMargin", "16.7 K"}}, "A heated liquid stays 16.7 K (30 °F) below its flash point.", "U.S. OSHA, 29 CFR 1910.106(a)(19)(iii) and (iv)"},
	{true, nil, "No margin below the flash point covers the mist that sound makes.", practice + byOfficer},
	{true, []Held{{"HighlyFlammable", "23 °C"}, {"Flammable", "60 °C"}, {"Combustible", "93 °C"}},
		"A liquid with H224 or H225 counts as flashing at 23 °C or below, one with H226 at 60 °C or below, one with H227 at 93 °C or below; without a flash point in its header it is taken at the low end of its class. Up to a flash point of 93 °C it can be lit.",
		"UN GHS, chapter 2.6, table 2.6.1; U.S. OSHA, 29 CFR 1910.106(a)(19)"},
	{true, []Held{{"GasOil", "75 °C"}}, "A flash point of up to 75 °C may stand beside H226, as that of a gas oil; a higher one contradicts it.", "Regulation (EC) No 1272/2008 (CLP), Annex I, 2.6.2.1, table 2.6.1, note, from memory" + byOfficer},
	{true, []Held{{"Room", "30 °C"}}, "A vessel without heat becomes 30 °C warm at most; a jar set above that, or a dryer above it, counts as warm.", "our own limit" + byOfficer},
	{true, []Held{{"ScaldsIn30s", "54 °C"}, {"ScaldsIn5s", "60 °C"}}, "Water scalds deep in 30 s at 54 °C and in 5 s at 60 °C.", "US Consumer Product Safety Commission, Avoiding Tap Water Scalds, publication 5098 (as quoted)"},
	{true, []Held{{"ScaldsIn1s", "70 °C"}}, "Water scalds deep in 1 s at 70 °C.", "Moritz and Henriques, American Journal of Pathology 23 (1947) 695, from memory" + byOfficer},
	{true, []Held{{"Scalding", "55 °C"}, {"HurtsSkin", "44 °C"}}, "From 55 °C a bath and what comes out of it are warned of as scalding, from 44 °C as hurting skin held in them.",
		"our own limit, by the line above and by what a reader of Moritz and Henriques (1947) quotes: 44 °C hurts for good after 6 h" + byOfficer},
	{true, []Held{{"HotParts", "60 °C"}}, "Parts and racks of 60 °C and more, out of a dryer or into a bath, are warned of as hot.", "our own limit, by the scalding of water at 60 °C" + byOfficer},
	{true, []Held{{"HotAsWater", "40 °C"}}, "Water of 40 °C and more counts as hot where the text puts concentrate or caustic into it.", "our own limit" + byOfficer},
	{true, []Held{{"StopAbove", "3 K"}},
		"Where the sound alone warms a bath, it is stopped 3 K above the set-point, and never above the chemistry's ceiling, the distance to the flash point, or the least that the parts stand which go in.", practice + byEngineer},
	{false, []Held{{"NearSetPoint", "10 K"}}, "Where nobody could reckon how far the sound warms a bath, a limit up to 10 K above its set-point is told as not checked.", "our own limit" + byEngineer},
	{true, []Held{{"SoundToHeat", "0.6"}, {"SoundToHeatLow", "0.4"}, {"SoundToHeatHigh", "0.8"}}, "0.6 of the sound's electrical power ends as heat in the bath, 0.4 to 0.8 in the band.",
		"from memory, to be confirmed by the process engineer with a thermometer and a clock: the calorimetric check"},
	{true, []Held{{"LidTransmittance", "5 W/(m²·K)"}}, "A closed lid of a single skin lets 5 W/(m²·K) through.", "from memory" + byEngineer},
	{true, []Held{{"LidLeak", "5 %"}}, "Past a lid comes 5 % of what would evaporate from the open bath.", practice + byEngineer},
	{true, []Held{{"LossBandLeast", "20 %"}, {"LossBandMost", "50 %"}}, "What a bath loses in the open is taken as 20 % to 50 % off either way, the more the hotter it is and the nearer to the room's temperature.",
		"calculated from how far other published correlations of evaporation lie from the one that is used: Carrier (1918), Rohwer (1931), Ryan, Harleman and Stolzenbach (1974), Smith, Löf and Jones (1998)"},
	{true, []Held{{"LossBandLid", "40 %"}}, "Under a lid its losses are taken as at least 40 % off either way, for it hangs on how well the lid fits.", practice + byEngineer},
	{false, []Held{{"BareEmissivity", "0.3"}}, "Bare stainless walls radiate with an emissivity of 0.3.", "from memory" + byEngineer},
	{false, []Held{{"WoolConductivity", "0.04 W/(m·K)"}}, "Insulation conducts 0.04 W/(m·K), as mineral wool does.", "from memory of handbooks" + byEngineer},
	{true, []Held{{"LevelFall", "10 %"}}, "Where more than 10 % of a bath's depth evaporates, it is warned that heater and transducers can run dry.", "our own limit" + byOfficer},

	{true, []Held{{"AcidBelow", "pH 5"}, {"AcidTo", "pH 6"}}, "A bath that can come below pH 5, or never comes above pH 6, counts as an acid, and so does one that says so.", "our own limit" + byOfficer},
	{true, []Held{{"AlkaliFrom", "pH 9"}, {"AlkaliReaching", "pH 11"}, {"AlkalineAbove", "pH 8"}},
		"A bath that never comes below pH 9, or can come to pH 11, counts as an alkali. Where a text pours acid and a bath together, one that stays above pH 8 counts as one.", "our own limit" + byOfficer},
	{true, []Held{{"LightMetalTo", "pH 11"}}, "A bath that comes above pH 11 without silicate dissolves aluminium and zinc, with hydrogen, and tin, lead, brass, anodise, coated optics and polycarbonate.",
		"Metal Finishing Guidebook 2011–12, metal cleaning, for caustic on aluminium and zinc; that it begins at this pH, and the others, from memory" + byOfficer},
	{true, []Held{{"KeepsGas", "pH 10"}}, "Cyanide and sulfide are kept from a bath that can come below pH 10, where hydrogen cyanide and hydrogen sulfide come off: half of them is free at pH 9.2 and 7.05, at pH 10 still 14 % and 0.1 %.",
		"CRC Handbook of Chemistry and Physics, 86th ed. (2005), section 8, dissociation constants of inorganic acids and bases: 9.21 and 7.05; that pH 10 is enough is our own limit" + byOfficer},
	{true, []Held{{"CorrosiveAcid", "pH 2"}, {"CorrosiveAlkali", "pH 11.5"}}, "At pH 2 and below, and at pH 11.5 and above, a liquid counts as corrosive to skin and eyes unless it was tested.",
		"Regulation (EC) No 1907/2006, Annex VII, 8.1, column 2 (as quoted in a registration); Regulation (EC) No 1272/2008 (CLP), Annex I, 3.2 and 3.3, from memory" + byOfficer},
	{true, []Held{{"EyeRinse", "15 min"}}, "First aid for eyes and for skin names water for 15 min or more.", "ANSI/ISEA Z358.1 (15 min, as quoted in a safety journal); section 4 of the safety data sheets"},
	{false, []Held{{"EnzymeTo", "50 °C"}, {"EnzymePHTo", "pH 9"}}, "Above 50 °C or pH 9 an enzyme bath is dead, and protein sets on the part.", "from memory of biochemistry handbooks" + byEngineer},
	{true, []Held{{"UnusualStrength", "30 %"}}, "A bath of more than 30 % concentrate is called unusual.", "our own limit" + byOfficer},
	{false, []Held{{"Neat", "90 %"}}, "A solvent of 90 % or more, with nothing in it that comes in water, has no pH that is compared with a material's.", "our own limit" + byOfficer},
	{false, []Held{{"StrengthAdjust", "10 %"}, {"StrengthHold", "20 %"}}, "A strength more than 10 % off is set right before the next load; more than 20 % off, the work is held and the parts since the last good reading are checked.", practice + byEngineer},
	{false, []Held{{"Half", "half"}}, "Where a material leaves less than half of a bath's own range of pH, the bath is a no; where it takes the upper half of another window, that is told as a condition.", "our own limit" + byEngineer},
	{false, []Held{{"WaterFrom", "pH 6.5"}, {"WaterTo", "8.5"}, {"PureFrom", "pH 6"}}, "Water of which nothing is known is taken for pH 6.5 to 8.5, pure water from pH 6.",
		"WHO, Guidelines for drinking-water quality, from memory, for 6.5 to 8.5; pure water from memory too" + byEngineer},
	{false, []Held{{"NoDifference", "0.05"}, {"Difference", "0.5"}}, "A rinse counts as outside what a material stands from 0.05 of a pH unit; where the water by itself is outside already, from 0.5 further.", "our own limit" + byEngineer},
	{false, []Held{{"EndPoint", "pH 4.5"}, {"Neutral", "pH 7"}}, "Total alkalinity ends at pH 4.5; a bath that can come to both sides of pH 7 has to be titrated for both.",
		"Standard Methods for the Examination of Water and Wastewater, method 2320, alkalinity; pH 7 is our own limit"},
	{false, []Held{{"Laboratory", "25 °C"}}, "A pH is told at 25 °C, and a rinse whose temperature nothing says is reckoned at that.", "our own limit" + byEngineer},
	{false, []Held{{"SpotLimit", "30 µS/cm"}}, "The last rinse of a part that must not spot has 30 µS/cm at most.", practice + byEngineer},
	{false, []Held{{"NearlyWorn", "1.5"}, {"WornOut", "2"}, {"Fresher", "0.9"}}, "A bath whose total to free alkalinity is 1.5 times that of the fresh bath is nearly worn out, at 2 times it is; below 0.9 times something else is wrong.", practice + byEngineer},
	{false, []Held{{"DragBand", "1.5"}, {"SoilBand", "1.3"}}, "Drag-out is taken as good to a factor of 1.5 either way, the soil of a load to 1.3.", practice + byEngineer},
	{false, []Held{{"PitsTo", "30 kHz"}}, "Sound of up to 30 kHz pits soft and polished metal, optics and thin parts.", "ASTM G131-96 (2016), 5.3 (20–25 kHz on aluminium and silver); 30 kHz is " + practice + byEngineer},
	{false, []Held{{"LoadFrom", "10 %"}, {"LoadMost", "50 %"}}, "Parts that weigh more than 10 % of the bath, 1 kg for 10 L, weaken the sound inside the basket; above 50 % it does not work between them.", practice + byEngineer},
	{true, []Held{{"LoadLevels", "2 %"}}, "A load that displaces more than 2 % of a bath is told to lift its level, where the room above the mark is not known.", "our own limit" + byOfficer},
}
