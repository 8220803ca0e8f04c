// Package desk serves a desk in the browser to whoever has no terminal: begin a manual by questions, see what is wrong and where, open a file in the system's
// editor, publish, print.
//
// It is served on loopback alone. Its address has a key that counts once; after that a cookie lets the browser in that has used it, and nobody else: a request has to
// name the address that is served, and one that does something has to come from a page of the desk.
package desk
