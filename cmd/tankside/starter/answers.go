package starter

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/quantity"
)

// Read reads an answers file: the shop file's own keys, as far as questions ask for them. The error says in which line something else stands.
func Read(data []byte) (Shop, error) {
	var s Shop
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return s, err
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return s, fmt.Errorf("there are no answers in it; write for example: name: Harbour Rebuild")
	}
	r := &reader{}
	root := doc.Content[0]
	r.allowed(root, append(fieldNames(ShopFields), "water", "tanks", "rinses", "dryer"))
	readMapping(r, root, ShopFields, &s, quantity.SI) // units first: they decide nothing about the others but gallons
	system := s.System()
	if water := r.value(root, "water", yaml.MappingNode); water != nil {
		r.allowed(water, fieldNames(WaterFields))
		readMapping(r, water, WaterFields, &s.Water, system)
	}
	for n, item := range r.items(root, "tanks") {
		t := Tank{Name: fmt.Sprintf("Wash %d", n+1)}
		r.allowed(item, fieldNames(TankFields))
		readMapping(r, item, TankFields, &t, system)
		r.needs(item, t.Volume, "volume")
		s.Tanks = append(s.Tanks, t)
	}
	for n, item := range r.items(root, "rinses") {
		rinse := Rinse{Name: fmt.Sprintf("Rinse %d", n+1), Water: "mains", Stages: "1"}
		r.allowed(item, fieldNames(RinseFields))
		readMapping(r, item, RinseFields, &rinse, system)
		r.needs(item, rinse.Volume, "volume")
		s.Rinses = append(s.Rinses, rinse)
	}
	if dryer := r.value(root, "dryer", yaml.MappingNode); dryer != nil {
		d := Dryer{Name: "Dryer"}
		r.allowed(dryer, fieldNames(DryerFields))
		readMapping(r, dryer, DryerFields, &d, system)
		s.Dryer = &d
	}
	if r.err == nil && len(s.Tanks) == 0 {
		r.err = fmt.Errorf("it names no tank; write tanks: with a line for each, such as “- {volume: 120 L, heater: 6 kW, ultrasonic-power: 1.2 kW, frequency: 40 kHz}”")
	}
	return s, r.err
}

// reader keeps the first thing that is wrong.
type reader struct{ err error }

func (r *reader) fail(n *yaml.Node, format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("line %d: %w", n.Line, fmt.Errorf(format, args...))
	}
}

// allowed refuses keys that are none.
func (r *reader) allowed(mapping *yaml.Node, keys []string) {
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if key := mapping.Content[i]; !slices.Contains(keys, key.Value) {
			r.fail(key, "there is no answer “%s”; there are %s", key.Value, strings.Join(keys, ", "))
		} else if slices.ContainsFunc(mapping.Content[:i], func(n *yaml.Node) bool { return n.Line < key.Line && n.Column == key.Column && n.Value == key.Value }) {
			r.fail(key, "“%s” is answered twice", key.Value)
		}
	}
}

// value gives the value of a key, nil where it is not there.
func (r *reader) value(mapping *yaml.Node, name string, kind yaml.Kind) *yaml.Node {
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if mapping.Content[i].Value != name {
			continue
		}
		if n := mapping.Content[i+1]; n.Kind == kind {
			return n
		}
		r.fail(mapping.Content[i], "“%s” has another form in a shop file", name)
	}
	return nil
}

// items gives the mappings of a list.
func (r *reader) items(mapping *yaml.Node, name string) []*yaml.Node {
	list := r.value(mapping, name, yaml.SequenceNode)
	if list == nil {
		return nil
	}
	if len(list.Content) > MostTanks {
		r.fail(list, "%d %s are more than the %d that a new manual begins with", len(list.Content), name, MostTanks)
		return nil
	}
	for _, item := range list.Content {
		if item.Kind != yaml.MappingNode {
			r.fail(item, "each of “%s” has keys of its own, such as volume", name)
			return nil
		}
	}
	return list.Content
}

func (r *reader) needs(at *yaml.Node, value, name string) {
	if value == "" {
		r.fail(at, "“%s” is missing", name)
	}
}

func fieldNames[T any](list []Field[T]) []string {
	var names []string
	for _, f := range list {
		names = append(names, f.Name)
	}
	return names
}

// readMapping reads those fields that a mapping has.
func readMapping[T any](r *reader, mapping *yaml.Node, list []Field[T], to *T, system quantity.System) {
	for _, f := range list {
		for i := 0; i+1 < len(mapping.Content); i += 2 {
			key, value := mapping.Content[i], mapping.Content[i+1]
			if key.Value != f.Name {
				continue
			}
			if value.Kind != yaml.ScalarNode {
				r.fail(value, "“%s” has one value", f.Name)
			} else if text := strings.TrimSpace(value.Value); text != "" {
				if err := f.Set(to, text, system); err != nil {
					r.fail(value, "%s: %w", f.Name, err)
				}
			}
		}
	}
}
