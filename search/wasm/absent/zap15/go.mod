module github.com/blevesearch/zapx/v15

go 1.26.0
