package drive

import (
	"fmt"
	"os"
	"regexp"
	"strings"
)

// Question is one of a working day's, and the way to its answer.
type Question struct {
	Who, Asks string
	Line      int
	// Open says what is missing, of a question that the manual does not answer in full.
	Open string
	Way  []Act
}

// Act is one thing done or seen on the way. Of Do, What and Where only what the act needs is filled.
type Act struct {
	Line int
	// Do is begin (What: a page's address), touch (What: the words on it), type (What, into the field Where), choose (What, in the field Where), ask
	// (What: a question to the search), read (What: words that have to be seen), or run (What: a command line).
	Do, What, Where string
}

// Terminal tells whether the question is answered at a terminal.
func (q *Question) Terminal() bool { return len(q.Way) > 0 && q.Way[0].Do == "run" }

var acts = []struct {
	do   string
	form *regexp.Regexp
}{
	{"begin", regexp.MustCompile("^begin at `([^`]+)`$")},
	{"touch", regexp.MustCompile(`^touch \*\*([^*]+)\*\*$`)},
	{"type", regexp.MustCompile(`^type \*\*([^*]+)\*\* into \*\*([^*]+)\*\*$`)},
	{"choose", regexp.MustCompile(`^choose \*\*([^*]+)\*\* in \*\*([^*]+)\*\*$`)},
	{"ask", regexp.MustCompile(`^ask \*\*([^*]+)\*\*$`)},
	{"read", regexp.MustCompile(`^read \*\*([^*]+)\*\*$`)},
	{"run", regexp.MustCompile("^run `tankside ([^`]+)`$")},
}

// ReadDay reads a file of questions: a heading of the second level for who asks, of the third for what, and a list of what is done and read. A question
// without an answer has a paragraph that begins with “Open:”. Every other line of a list is an error; what is said before the first
// question is for the reader.
func ReadDay(name string) ([]Question, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var list []Question
	who := ""
	for i, line := range strings.Split(string(data), "\n") {
		line = strings.TrimRight(line, " \r")
		if after, ok := strings.CutPrefix(line, "## "); ok {
			who = after
			continue
		}
		if after, ok := strings.CutPrefix(line, "### "); ok {
			list = append(list, Question{Who: who, Asks: after, Line: i + 1})
			continue
		}
		if len(list) == 0 || line == "" {
			continue
		}
		q := &list[len(list)-1]
		if after, ok := strings.CutPrefix(line, "Open: "); ok {
			q.Open = after
			continue
		}
		act, err := readAct(line)
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
		act.Line = i + 1
		q.Way = append(q.Way, act)
	}
	for _, q := range list {
		switch {
		case q.Who == "":
			err = fmt.Errorf("nobody asks it")
		case q.Open == "" && (len(q.Way) < 2 || q.Way[len(q.Way)-1].Do != "read"):
			err = fmt.Errorf("its way does not end with something read")
		case q.Open != "" && len(q.Way) > 0:
			err = fmt.Errorf("it is open and has a way")
		}
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %s: %w", name, q.Line, q.Asks, err)
		}
	}
	return list, nil
}

func readAct(line string) (Act, error) {
	rest, ok := strings.CutPrefix(line, "- ")
	if !ok {
		return Act{}, fmt.Errorf("%q is no item of a list", line)
	}
	for _, a := range acts {
		if m := a.form.FindStringSubmatch(rest); m != nil {
			act := Act{Do: a.do, What: m[1]}
			if len(m) > 2 {
				act.Where = m[2]
			}
			return act, nil
		}
	}
	return Act{}, fmt.Errorf("%q is nothing that can be done", rest)
}
