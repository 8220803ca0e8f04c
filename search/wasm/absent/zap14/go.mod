module github.com/blevesearch/zapx/v14

go 1.26.0
