module github.com/blevesearch/zapx/v13

go 1.26.0
