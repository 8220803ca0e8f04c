package fragment

import "testing"

func TestPut(t *testing.T) {
	for _, c := range []struct {
		markup string
		texts  []string
		want   string
	}{
		{"<br>", nil, "<br>"},
		{`<a href="{}">{}</a>`, []string{"soils/wax.html?a&b", "62 °C"}, `<a href="soils/wax.html?a&amp;b">62 °C</a>`},
		{"{}{}", []string{"", "{}"}, "{}"},
		{"<p title='{}'>", []string{"'\"<>&\x00é\U0001f9fd"}, "<p title='&#39;&#34;&lt;&gt;&amp;\uFFFDé\U0001f9fd'>"},
	} {
		var w Writer
		if w.Put(c.markup, c.texts...); w.String() != c.want {
			t.Errorf("%q with %q is %q, not %q", c.markup, c.texts, w.String(), c.want)
		}
	}
}
