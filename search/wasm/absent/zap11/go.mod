module github.com/blevesearch/zapx/v11

go 1.26.0
