package manual

import (
	"fmt"
	"path"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// maxPath is the longest path that an article or picture may have, so that the edition still fits below a folder of a Windows desk,
// where a path ends at 260 characters.
const maxPath = 160

var (
	tidyName    = expression.Of(`^[a-z0-9]+(?:-[a-z0-9]+)*$`)
	reserved    = expression.Of(`(?i)^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?:\.|$)`)
	unusable    = `<>:"\|?*#%&;`
	pageOfKind  = "index" // the page that lists a folder's articles has this name
	pictureExts = "svg png jpg jpeg webp gif"
)

var pictureTypes = func() map[string]bool {
	types := make(map[string]bool)
	for _, e := range strings.Fields(pictureExts) {
		types["."+e] = true
	}
	return types
}()

// nameFile checks the name of a file that is part of the manual; false when it cannot be used.
func nameFile(d *decoder, f source) bool {
	at := finding.Place{File: f.path}
	bad := func(message, remedy string) bool {
		d.report(ruleUnusableName, at, message, remedy)
		return false
	}
	if len(f.path) > maxPath {
		return bad(fmt.Sprintf("The path has more than %d characters.", maxPath), "Choose a shorter name.")
	}
	tidy := true
	parts := strings.Split(f.path, "/")
	for i, part := range parts {
		switch {
		case reserved.MatchString(part):
			return bad("Windows keeps the name “"+part+"” for a device.", "Choose another name, of two words for example.")
		case strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") || strings.HasPrefix(part, " "):
			return bad("The name “"+part+"” begins or ends with a blank, or ends with a full stop, which Windows drops.", "Take it off.")
		}
		for _, r := range part {
			if strings.ContainsRune(unusable, r) || unicode.IsControl(r) || r == unicode.ReplacementChar {
				return bad(fmt.Sprintf("The name “%s” has %q in it, which some computers cannot store or links cannot name.", part, r), "Use letters, digits and hyphens.")
			}
		}
		stem := part
		if i == len(parts)-1 {
			stem = strings.TrimSuffix(part, path.Ext(part))
			if original, _, ok := translationOf(part); ok && f.sort == articleFile {
				stem = strings.TrimSuffix(original, path.Ext(original))
			}
			if f.sort == articleFile && strings.EqualFold(stem, pageOfKind) {
				return bad("An article cannot be called “"+stem+"”: that is the page that lists its folder.", "Choose another name.")
			}
		}
		tidy = tidy && tidyName.MatchString(stem) && path.Ext(part) == strings.ToLower(path.Ext(part))
	}
	if !tidy {
		remedy := "Name it with letters from a to z in lower case, digits and hyphens, and correct the links to it."
		if name := tidied(f.path); name != f.path {
			remedy = "Rename it to " + name + ", and correct the links to it."
		}
		d.report(ruleUntidyName, at, "The name is not lower-case words joined by hyphens.", remedy)
	}
	return true
}

// CheckName says what is wrong with the path of an article to be, such as "soils/wax.md": nothing where it can be used as it stands.
func CheckName(p string) []finding.Finding {
	d := &decoder{file: p}
	nameFile(d, source{path: p, sort: articleFile})
	if _, _, is := translationOf(p); is && len(d.findings) == 0 {
		d.report(ruleUnusableName, finding.Place{File: p}, "A name that ends in a language is that of a translation.", "Choose another name.")
	}
	return d.findings
}

// plainLetters are letters that are no others with a mark.
var plainLetters = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "đ", "d", "ł", "l", "ð", "d", "þ", "th", "ı", "i")

// withoutMarks writes letters from a to z for those with marks, and leaves out what has no such letter.
func withoutMarks(s string) string {
	return strings.Map(func(r rune) rune {
		if r > unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r)) {
			return -1
		}
		return r
	}, norm.NFD.String(plainLetters.Replace(strings.ToLower(s))))
}

// tidied is how the path should read; the path itself where that cannot be said.
func tidied(p string) string {
	whole := p
	p = withoutMarks(p)
	parts := strings.Split(p, "/")
	for i, part := range parts {
		extension := ""
		if i == len(parts)-1 {
			extension = path.Ext(part)
			if original, language, ok := translationOf(strings.ToLower(part)); ok {
				part, extension = original, "."+strings.ToLower(language)+strings.ToLower(extension)
				parts[i] = Anchor(strings.TrimSuffix(part, path.Ext(part))) + extension
				continue
			}
		}
		if part = strings.TrimSuffix(part, extension); !strings.ContainsFunc(part, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
			return whole
		}
		parts[i] = Anchor(part) + strings.ToLower(extension)
	}
	return strings.Join(parts, "/")
}
