module github.com/blevesearch/geo

go 1.26.0
