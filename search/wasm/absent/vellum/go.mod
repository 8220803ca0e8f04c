module github.com/blevesearch/vellum

go 1.26.0

require whole.invalid/vellum v1.2.1
