package languageserver

// What is taken from the other side. An article has at most 1 MiB (package manual), which JSON may write with six bytes for one.
const (
	maxMessage   = 8 << 20 // bytes of one message; a longer one is passed over
	maxFields    = 4 << 10 // bytes of the header fields before it
	maxOpen      = 1_000   // open texts
	maxText      = 2 << 20 // bytes of one; a longer one is not followed, and what is on the disk counts
	maxAllTexts  = 64 << 20
	maxEditWork  = 1 << 30 // bytes that the changes of one message may have to be looked through
	maxOffered   = 500     // proposals in one answer
	maxAddresses = 5_000   // places in one answer
)
