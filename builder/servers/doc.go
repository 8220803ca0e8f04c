// Package servers holds no code but tests: an edition on an ordinary web server (nginx) and in an object store (through rclone), set up by the files
// that SERVERS.md shows, and the certificate by which a shop's tablets trust a host.
package servers
