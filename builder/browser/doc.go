// Package browser holds no code but tests: the demo manual is published and then used in real browsers as people use it, from a server
// (http) and from a folder (file). Chromium is driven through its debugging protocol, Firefox through Marionette, which comes with it.
//
// While a page is open, every request, every message on the console and every breach of the page's security policy is kept:
// a test fails when anything left the edition or anything was complained of.
package browser
