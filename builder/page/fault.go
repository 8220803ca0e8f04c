package page

import (
	"strconv"

	"tankside/builder/expression"
	"tankside/themes"
)

// inTemplate is how the template library begins what it says: template: NAME:LINE or html/template:NAME:LINE.
var inTemplate = expression.Of(`\btemplate: ?([\w.-]+?)(?:\.html)?:(\d+)`)

// fault says that a page cannot be made with its templates. sheet is the template of the page; what is wrong may be in one that it uses, or in
// what the shop's own one leaves out of one that it fills.
func (s *site) fault(sheet string, err error) error {
	e := &themes.FaultError{File: "templates/" + sheet + ".html", Err: err}
	named, line := e.File, 0
	if m := inTemplate.FindStringSubmatch(err.Error()); m != nil {
		named = "templates/" + m[1] + ".html"
		line, _ = strconv.Atoi(m[2]) // digits
	}
	switch {
	case s.Theme.Own(named):
		e.File, e.Line = named, line
	case s.Theme.Own(e.File):
	case s.Theme.Own("templates"): // one of the shop's lacks what these use
		e.File = "templates"
	}
	return e
}
