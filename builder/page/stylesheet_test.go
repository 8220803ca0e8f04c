package page

import "testing"

func TestCommentsStayOutOfStyles(t *testing.T) {
	for css, want := range map[string]string{
		"a { b: c; } /* why */ d { e: f; }":     "a { b: c; }  d { e: f; }",
		"/* one *//* two */a{}":                 "a{}",
		`a::after { content: "/* no */"; }`:     `a::after { content: "/* no */"; }`,
		`a { b: '/*\'*/' } /* c */`:             `a { b: '/*\'*/' } `,
		"a { b: url(x/*y*/z) } /* c */":         "a { b: url(x/*y*/z) } ",
		`a { b: URL( "x)/*y" ) /* c */ }`:       `a { b: URL( "x)/*y" )  }`,
		"/*! rights */ a{} /* open":             "/*! rights */ a{} ",
		`a { b: "open /* c */`:                  `a { b: "open /* c */`,
		`.a\"b { c: d } /* e */ f { g: "h" }`:   `.a\"b { c: d }  f { g: "h" }`,
		"a/* x */.b { c: d/* y */e; }":          "a/**/.b { c: d/**/e; }",
		"":                                      "",
		`\`:                                     `\`,
		"a { b: url(":                           "a { b: url(",
		"/* a /* b */ c */":                     " c */",
		"a { width: calc(1px /**/ * /**/ 2); }": "a { width: calc(1px  *  2); }",
	} {
		if got := string(withoutComments([]byte(css))); got != want {
			t.Errorf("%q became %q, want %q", css, got, want)
		}
	}
}
