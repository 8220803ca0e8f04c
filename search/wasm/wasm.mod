module tankside

go 1.26.0

require (
	github.com/RoaringBitmap/roaring/v2 v2.30.0
	github.com/blevesearch/bleve/v2 v2.6.3
	github.com/blevesearch/bleve_index_api v1.4.1
	github.com/blevesearch/scorch_segment_api/v2 v2.4.11
	github.com/blevesearch/snowballstem v0.9.0
	github.com/blevesearch/zapx/v17 v17.2.5
)

require (
	github.com/bits-and-blooms/bitset v1.24.4 // indirect
	github.com/blevesearch/geo v0.2.8 // indirect
	github.com/blevesearch/mmap-go v1.2.0 // indirect
	github.com/blevesearch/upsidedown_store_api v1.0.2 // indirect
	github.com/blevesearch/vellum v1.2.1 // indirect
	github.com/blevesearch/zapx/v11 v11.4.3 // indirect
	github.com/blevesearch/zapx/v12 v12.4.3 // indirect
	github.com/blevesearch/zapx/v13 v13.4.3 // indirect
	github.com/blevesearch/zapx/v14 v14.4.3 // indirect
	github.com/blevesearch/zapx/v15 v15.4.3 // indirect
	github.com/blevesearch/zapx/v16 v16.3.4 // indirect
	github.com/golang/snappy v1.0.0 // indirect
	github.com/mschoch/smat v0.2.0 // indirect
	go.etcd.io/bbolt v1.4.0 // indirect
	whole.invalid/vellum v1.2.1 // indirect
)

replace (
	github.com/blevesearch/geo => ./search/wasm/absent/geo
	github.com/blevesearch/vellum => ./search/wasm/absent/vellum
	github.com/blevesearch/zapx/v11 => ./search/wasm/absent/zap11
	github.com/blevesearch/zapx/v12 => ./search/wasm/absent/zap12
	github.com/blevesearch/zapx/v13 => ./search/wasm/absent/zap13
	github.com/blevesearch/zapx/v14 => ./search/wasm/absent/zap14
	github.com/blevesearch/zapx/v15 => ./search/wasm/absent/zap15
	github.com/blevesearch/zapx/v16 => ./search/wasm/absent/zap16
	go.etcd.io/bbolt => ./search/wasm/absent/bbolt
	whole.invalid/vellum => github.com/blevesearch/vellum v1.2.1
)
