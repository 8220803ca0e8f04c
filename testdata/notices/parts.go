package main

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"
)

// The list of parts, in the form of SPDX 2.3 (ISO/IEC 5962:2021 with its supplement; clauses 6, 7 and 11).
type document struct {
	Version       string     `json:"spdxVersion"`
	License       string     `json:"dataLicense"`
	ID            string     `json:"SPDXID"`
	Name          string     `json:"name"`
	Namespace     string     `json:"documentNamespace"`
	Creation      creation   `json:"creationInfo"`
	Packages      []part     `json:"packages"`
	Relationships []relation `json:"relationships"`
}

type creation struct {
	Created  string   `json:"created"`
	Creators []string `json:"creators"`
}

type part struct {
	ID        string `json:"SPDXID"`
	Name      string `json:"name"`
	Version   string `json:"versionInfo,omitempty"`
	From      string `json:"downloadLocation"`
	Analyzed  bool   `json:"filesAnalyzed"`
	Concluded string `json:"licenseConcluded"`
	Declared  string `json:"licenseDeclared"`
	Copyright string `json:"copyrightText"`
	Refs      []ref  `json:"externalRefs,omitempty"`
}

type ref struct {
	Category string `json:"referenceCategory"`
	Type     string `json:"referenceType"`
	Locator  string `json:"referenceLocator"`
}

type relation struct {
	Of   string `json:"spdxElementId"`
	Is   string `json:"relationshipType"`
	To   string `json:"relatedSpdxElement"`
	Note string `json:"comment,omitempty"`
}

// What a licence's text must have, by its name in the SPDX list of licences. The first that fits is taken, so what has more to it stands first.
var licences = []struct{ name, has string }{
	{"Apache-2.0", "Apache License"},
	{"MPL-2.0", "Mozilla Public License"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
	{"BSD-3-Clause", "may be used to endorse or promote"},
	{"BSD-2-Clause", "Redistributions in binary form must reproduce the above copyright notice"},
}

// licenceOf tells the licences of a module, all of which hold.
func licenceOf(text string) (string, error) {
	plain := strings.Join(strings.Fields(text), " ")
	var names []string
	for _, l := range licences {
		if strings.Contains(plain, l.has) && !(l.name == "BSD-2-Clause" && slices.Contains(names, "BSD-3-Clause")) {
			names = append(names, l.name)
		}
	}
	if len(names) == 0 {
		return "", fmt.Errorf("its licence is none of those that are known: %.100s", plain)
	}
	return strings.Join(names, " AND "), nil
}

var notID = regexp.MustCompile(`[^A-Za-z0-9.-]+`)

// parts lists what is linked: the command depends on all of it, an edition on what its browser modules are made of.
func parts(command, edition map[string]string) (document, error) {
	d := document{
		Version: "SPDX-2.3", License: "CC0-1.0", ID: "SPDXRef-DOCUMENT", Name: "tankside", Namespace: "urn:tankside:parts",
		Creation: creation{time.Now().UTC().Format("2006-01-02T15:04:05Z"), []string{"Tool: tankside-testdata-notices"}},
	}
	for _, own := range []string{"tankside", "tankside-edition"} {
		d.Packages = append(d.Packages, part{ID: "SPDXRef-" + own, Name: own, From: "NOASSERTION", Concluded: "NOASSERTION", Declared: "NOASSERTION", Copyright: "NOASSERTION"})
		d.Relationships = append(d.Relationships, relation{"SPDXRef-DOCUMENT", "DESCRIBES", "SPDXRef-" + own, ""})
	}
	add := func(path, version, licence string, inEdition bool) {
		id := "SPDXRef-" + notID.ReplaceAllString(path, "-")
		d.Packages = append(d.Packages, part{
			ID: id, Name: path, Version: version, From: "NOASSERTION", Concluded: licence, Declared: licence, Copyright: "NOASSERTION",
			Refs: []ref{{"PACKAGE-MANAGER", "purl", "pkg:golang/" + path + "@" + version}},
		})
		d.Relationships = append(d.Relationships, relation{"SPDXRef-tankside", "STATIC_LINK", id, ""})
		if inEdition {
			d.Relationships = append(d.Relationships, relation{"SPDXRef-tankside-edition", "STATIC_LINK", id, ""})
		}
	}
	add("stdlib", strings.TrimPrefix(runtime.Version(), "go"), "BSD-3-Clause", true)
	all := map[string]string{}
	for _, linked := range []map[string]string{command, edition} {
		for name, dir := range linked {
			all[name] = dir
		}
	}
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		text, err := termsIn(all[name])
		if err != nil {
			return d, fmt.Errorf("%s: %w", name, err)
		}
		licence, err := licenceOf(text)
		if err != nil {
			return d, fmt.Errorf("%s: %w", name, err)
		}
		path, version, _ := strings.Cut(name, " ")
		add(path, version, licence, edition[name] != "")
	}
	return d, nil
}

// writeParts writes the list of parts to standard output.
func writeParts(command, edition map[string]string) error {
	d, err := parts(command, edition)
	if err != nil {
		return err
	}
	enc := json.NewEncoder(os.Stdout)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(d)
}
