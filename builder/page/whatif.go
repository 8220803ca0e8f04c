package page

// whatIf is what the questions about changed set-points and about two baths need.
type whatIf struct{}
