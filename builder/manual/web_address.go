package manual

import (
	"errors"
	"net/url"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
)

// longestAddress is how many characters the address of an edition may have, so that a QR code of it can still be read off a card at arm's length.
const longestAddress = 120

// webAddress is where the newest edition is served.
func webAddress() field[Shop] {
	key := Key{Name: "address", Form: "address with http or https", Example: "https://manual.shop.example/",
		Means: "where the newest edition is served: cards lead there, and copies ask there whether they are the current one"}
	return field[Shop]{key, func(d *decoder, s *Shop, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		address, err := servedAt(text)
		if err != nil {
			d.report(ruleWrongValue, d.at(n), "“"+clip(text, 40)+"” "+err.Error()+".", "Write what the browser shows where the first page of the edition is open, such as "+key.Name+": "+key.Example)
			return
		}
		s.Address = address
	}}
}

// inAddress is what an address may be made of: characters that mean nothing in a content security policy, in HTML or in a script. Names with other
// letters are written as the browser sends them (RFC 5891, “xn--”; RFC 3986, percent signs).
var inAddress = expression.Of(`^https?://[a-z0-9.:\[\]-]+(/[A-Za-z0-9._~%/-]*)?$`)

// servedAt checks the address of an edition and gives it as that of a folder, with a slash at its end. The error is the end of a sentence.
func servedAt(text string) (string, error) {
	u, err := url.Parse(text)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Hostname() == "" {
		return "", errors.New("is no address with http or https")
	}
	if u.User != nil || u.RawQuery != "" || u.ForceQuery || strings.Contains(text, "#") {
		return "", errors.New("has more than server and folder in it")
	}
	u.Host = strings.ToLower(u.Host)
	folder := strings.TrimSuffix(u.EscapedPath(), "index.html")
	if !strings.HasSuffix(folder, "/") {
		folder += "/"
	}
	address := u.Scheme + "://" + u.Host + folder
	switch {
	case !inAddress.MatchString(address) || strings.ContainsAny(text, " \"'<>"):
		return "", errors.New("has characters in it that an address is not written with")
	case strings.Contains(folder, "/../") || strings.Contains(folder, "/./") || strings.Contains(folder, "//"):
		return "", errors.New("leads through folders that have no name")
	case len(address) > longestAddress:
		return "", errors.New("is longer than a card can show as a QR code")
	}
	return address, nil
}
