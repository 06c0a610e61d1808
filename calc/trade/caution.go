package trade

// cautions are the safety remarks that stand beside a result, by class.
var cautions = [...]string{
	'A': "Strength, weight and stability do not scale alike. These are shapes and stock sizes only: have a qualified designer look before a scaled boat is built to go afloat.",
	'B': "A bench figure for choosing stock, not a proof of strength. Test a piece of the same wood and keep to the design's scantlings and fastening schedule; where a life hangs on it, ask a qualified person.",
	'C': "Wood moves with its species, its grain and the weather. Put a meter on your own boards before you trust this gap; a bottom planked too tight can lift its fastenings.",
	'D': "Steam, heat, solvents, dust and glue burn skin and harm lungs. Read the maker's safety sheet of your product and wear the gear it names.",
	'E': "An estimate for a calm day with the weights given. It does not show that a boat is safe afloat: have stability judged by someone qualified, wear a life jacket, try her in shallow water by a friendly shore.",
	'F': "Not a capacity plate and not legal advice. Rules on load, power and flotation differ by country and change: check the current text for your waters with a person licensed or appointed to apply it. Take fewer people in waves, wind or cold, or with children.",
}

// Text is the remark of a caution's class, "" for none.
func (c Caution) Text() string { return cautions[c] }

// Letter returns the class, A to F, "" for none.
func (c Caution) Letter() string {
	if c == 0 {
		return ""
	}
	return string(rune(c))
}
