module github.com/blevesearch/zapx/v16

go 1.26.0
