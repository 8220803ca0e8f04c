module github.com/blevesearch/zapx/v12

go 1.26.0
