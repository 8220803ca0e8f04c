module go.etcd.io/bbolt

go 1.26.0
