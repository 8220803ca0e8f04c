// Package editions looks through a folder that has many editions in it, of one shop or of many, as whoever looks after several shops keeps them: which
// shop has which edition, which is damaged, and which is behind the others of its shop, or behind a base.
//
// Numbers of a ledger are compared within one shop alone, known by its name, for two shops count by themselves. Of another shop than the base's, the revisions of the articles are compared.
// An edition that was made over a base is behind as well where another in the folder was made over a later edition of that base, or the base that is named is later.
// What cannot be compared is NotCompared and never Newest.
package editions

import "tankside/builder/edition"

// State is whether what lies there is as it was published.
type State string

// The states.
const (
	Whole   State = "whole"
	Damaged State = "damaged" // files are damaged or missing, or there are files of nobody's edition
	NoList  State = "unknown" // an edition that cannot be compared: without a list, with a damaged one, or in a file that is refused
	None    State = "none"    // a folder beside the editions with none in it
)

// Standing is how an edition stands to the others of its shop or to the base.
type Standing string

// The standings.
const (
	Newest      Standing = "newest"
	Behind      Standing = "behind"
	Apart       Standing = "apart" // another edition of the shop has the same number and another code
	NotCompared Standing = "not compared"
)

// One is one edition of a folder.
type One struct {
	Path string `json:"path"` // within the folder, with /
	Shop string `json:"shop"` // as the shop file had it; "" where it is not known
	edition.Mark
	Base     *edition.Base `json:"base,omitempty"` // what the shop's manual lies over, where it lies over one
	Signed   bool          `json:"signed"`         // by somebody; whether that holds is not looked at here
	State    State         `json:"state"`
	Files    int           `json:"files"` // compared
	Damaged  Paths         `json:"damaged"`
	Missing  Paths         `json:"missing"`
	Extra    Paths         `json:"extra"`
	Problem  string        `json:"problem,omitempty"` // a sentence's text where the state is NoList or None
	Standing Standing      `json:"standing"`
	Why      string        `json:"why"` // of the standing

	articles []edition.Article // with a base alone, until they are compared
}

// Fine tells whether nobody has to do anything about it.
func (o *One) Fine() bool { return o.State == Whole && o.Standing != Behind && o.Standing != Apart }

// Paths are files of an edition: how many, and the first of them.
type Paths struct {
	Count int      `json:"count"`
	First []string `json:"first"`
}

// mostPaths is how many files are named.
const mostPaths = 10

func paths(list []string) Paths {
	return Paths{len(list), append([]string{}, list[:min(len(list), mostPaths)]...)}
}
