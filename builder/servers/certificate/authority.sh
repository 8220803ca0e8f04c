# Once, on a machine that is not the host. It asks for a passphrase; keep authority.key where nobody else gets at it.
openssl req -x509 -config authority.cnf -newkey ec -pkeyopt ec_paramgen_curve:P-256 -sha256 -days 3650 -keyout authority.key -out authority.crt
