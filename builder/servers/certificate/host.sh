# Once a year, beside authority.key. host.crt and host.key go to the host.
openssl req -new -config host.cnf -newkey ec -pkeyopt ec_paramgen_curve:P-256 -sha256 -keyout host.key -out host.csr
openssl x509 -req -in host.csr -CA authority.crt -CAkey authority.key -CAcreateserial -sha256 -days 397 -extfile host.cnf -extensions host -out host.crt
chmod 600 host.key
