package main

import (
	"errors"
	"fmt"
	"strings"
)

// options are the options that a command takes. They may stand anywhere behind the command; -- ends them.
type options struct {
	list []option
	help bool
}

type option struct {
	name  string
	value string // what its value is called; empty where it takes none
	means string
	set   func(string)
}

// call is how the option is written.
func (opt option) call() string { return strings.TrimSpace("--" + opt.name + " " + opt.value) }

// text adds an option with a value.
func (o *options) text(name, value, means, usual string) *string {
	v := usual
	o.list = append(o.list, option{name, value, means, func(given string) { v = given }})
	return &v
}

// texts adds an option with a value that may be given several times.
func (o *options) texts(name, value, means string) *[]string {
	var v []string
	o.list = append(o.list, option{name, value, means, func(given string) { v = append(v, given) }})
	return &v
}

// yes adds an option without a value.
func (o *options) yes(name, means string) *bool {
	var v bool
	o.list = append(o.list, option{name, "", means, func(string) { v = true }})
	return &v
}

// parse sets the options and gives the other arguments.
func (o *options) parse(args []string) (rest []string, err error) {
	for len(args) > 0 {
		arg := args[0]
		args = args[1:]
		switch {
		case arg == "--":
			return append(rest, args...), nil
		case arg == "--help" || arg == "-h":
			o.help = true
		case strings.HasPrefix(arg, "--"):
			if args, err = o.one(arg[2:], args); err != nil {
				return nil, err
			}
		case len(arg) > 1 && arg[0] == '-' && !strings.Contains("0123456789.", arg[1:2]): // -5 is a number
			return nil, fmt.Errorf("there is no option %s%s", arg, didYouMean("--"+strings.TrimLeft(arg, "-"), o.names()))
		default:
			rest = append(rest, arg)
		}
	}
	return rest, nil
}

// one sets the option that is written as name or name=value, and gives the arguments behind it.
func (o *options) one(written string, args []string) ([]string, error) {
	name, value, has := strings.Cut(written, "=")
	for _, opt := range o.list {
		if opt.name != name {
			continue
		}
		switch {
		case opt.value == "" && has:
			return nil, fmt.Errorf("the option --%s takes no value", name)
		case opt.value == "":
		case !has && len(args) == 0:
			return nil, fmt.Errorf("the option --%s needs a value: --%s %s", name, name, opt.value)
		case !has:
			value, args = args[0], args[1:]
			if strings.HasPrefix(value, "--") {
				return nil, fmt.Errorf("the option --%s needs a value, and behind it stands %s; where that is the value, write --%s=%s", name, value, name, value)
			}
		}
		if opt.value != "" && value == "" {
			return nil, fmt.Errorf("the value of the option --%s is empty", name)
		}
		opt.set(value)
		return args, nil
	}
	return nil, fmt.Errorf("there is no option --%s%s", name, didYouMean("--"+name, o.names()))
}

func (o *options) names() []string {
	names := make([]string, len(o.list))
	for i, opt := range o.list {
		names[i] = "--" + opt.name
	}
	return append(names, "--help")
}

var errTwoForms = errors.New("--json and --sarif are two forms of one answer; give one of them")

// didYouMean offers the nearest of the names, where one is near.
func didYouMean(given string, names []string) string {
	best, least := "", 3
	for _, name := range names {
		distance := editsBetween(given, name)
		if strings.HasPrefix(name, given) && len(given) > 2 {
			distance = min(distance, 1)
		}
		if distance < least {
			best, least = name, distance
		}
	}
	if best == "" {
		return ""
	}
	return "; did you mean " + best + "?"
}

// editsBetween counts the letters to put in, take out, replace or swap to make one word of another (optimal string alignment).
func editsBetween(a, b string) int {
	const far = 1 << 10
	from, to := []rune(a), []rune(b)
	if len(from) > 60 {
		return far
	}
	rows := make([][]int, len(from)+1)
	for i := range rows {
		rows[i] = make([]int, len(to)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(from); i++ {
		for j := 1; j <= len(to); j++ {
			cost := 1
			if from[i-1] == to[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(from)][len(to)]
}
