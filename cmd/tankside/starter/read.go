package starter

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/quantity"
)

// ReadTank reads what is written of a tank, as on its type plate: amounts with commas between, each with its name before or behind it ("heating 6 kW"), or as it is
// where only one thing can be meant. A part that is no amount is the name. What is not there is unknown; nothing is taken for something else.
func ReadTank(text string, system quantity.System) (Tank, error) {
	var t Tank
	err := readParts(text, TankFields, &t, system)
	if err == nil && t.Volume == "" {
		err = fmt.Errorf("the volume is missing, filled to the mark, such as 120 L")
	}
	return t, err
}

// ReadRinse reads what is written of a rinse, as ReadTank does.
func ReadRinse(text string, system quantity.System) (Rinse, error) {
	r := Rinse{Water: "mains", Stages: "1"}
	err := readParts(text, RinseFields, &r, system)
	if err == nil && r.Volume == "" {
		err = fmt.Errorf("the volume of one stage is missing, such as 90 L")
	}
	return r, err
}

// ReadDryer reads what is written of a dryer, as ReadTank does.
func ReadDryer(text string, system quantity.System) (Dryer, error) {
	d := Dryer{Name: "Dryer"}
	return d, readParts(text, DryerFields, &d, system)
}

// readParts reads parts with commas between.
func readParts[T any](text string, list []Field[T], to *T, system quantity.System) error {
	parts := strings.Split(text, ",")
	taken := map[string]bool{}
	set := func(f Field[T], answer string) error {
		if taken[f.Name] {
			return fmt.Errorf("%s: it is written twice", f.Name)
		}
		taken[f.Name] = true
		if err := f.Set(to, answer, system); err != nil {
			return fmt.Errorf("%s: %w", f.Name, err)
		}
		return nil
	}
	if len(parts) == len(list) && !slices.ContainsFunc(parts, func(part string) bool { _, _, is := labelled(list, part, system); return is }) { // in the order of the questions
		for n, f := range list {
			if err := set(f, strings.TrimSpace(parts[n])); err != nil {
				return err
			}
		}
		return nil
	}
	for n, part := range parts {
		part = strings.TrimSpace(part)
		f, answer, is := labelled(list, part, system)
		if part == "" {
			continue
		}
		if !is {
			var err error
			if f, err = meant(list, part, taken, n == 0, system); err != nil {
				return err
			}
			answer = part
		}
		if err := set(f, answer); err != nil {
			return err
		}
	}
	return nil
}

// meant finds the one thing that can be meant by a part that does not say what it is: the only amount of its sort, and else the words that are still open, of the first
// part the name.
func meant[T any](list []Field[T], part string, taken map[string]bool, first bool, system quantity.System) (Field[T], error) {
	var amounts, words []Field[T]
	for _, f := range list {
		var trial T
		if taken[f.Name] || f.Set(&trial, part, system) != nil {
			continue
		}
		if f.Words {
			words = append(words, f)
		} else {
			amounts = append(amounts, f)
		}
	}
	switch {
	case !first && part[0] >= '0' && part[0] <= '9': // an amount that is none of these, or is there already
		words = nil
	case !first && len(words) > 1: // a name stands first
		words = words[1:]
	}
	switch {
	case len(amounts) == 1:
		return amounts[0], nil
	case len(amounts) > 1 && strings.EqualFold(part, "none"): // the heater stands first
		return amounts[0], nil
	case len(amounts) > 1:
		return list[0], fmt.Errorf("“%s” may be %s; write what it is before it, for example “%s %s”", part, names(amounts, " or "), amounts[0].Name, part)
	case len(words) == 0:
		return list[0], fmt.Errorf("“%s” is none of %s", part, names(list[1:], ", "))
	}
	return words[0], nil
}

// labelled finds the name of a field before or behind an amount.
func labelled[T any](list []Field[T], part string, system quantity.System) (f Field[T], answer string, is bool) {
	part = strings.TrimSpace(part)
	low := strings.ToLower(part)
	for _, f := range list {
		for _, word := range append([]string{f.Name}, f.Also...) {
			if rest, is := strings.CutPrefix(low, word); is {
				if value := strings.TrimLeft(rest, " "); value != rest && (value[0] >= '0' && value[0] <= '9' || value == unknown || value == "none") || strings.HasPrefix(value, ":") || strings.HasPrefix(value, "=") {
					return f, strings.TrimLeft(part[len(word):], " :="), true
				}
			}
			if before, is := strings.CutSuffix(low, " "+word); is {
				var trial T
				if answer := part[:len(before)]; f.Set(&trial, answer, system) == nil && !f.Words {
					return f, answer, true
				}
			}
		}
	}
	return f, "", false
}

func names[T any](list []Field[T], between string) string {
	return strings.Join(fieldNames(list), between)
}
