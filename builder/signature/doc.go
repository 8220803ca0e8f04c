// Package signature reads signatures that OpenSSH makes, and says whether they hold: of an article as it was approved, and of an edition's checksum list.
// It makes none; ssh-keygen does, and checks them as well, with no program of ours:
//
//	ssh-keygen -Y sign -f KEY -n tankside-approval soils/wax.md
//	ssh-keygen -Y verify -f allowed_signers -I WHO -n tankside-approval -s soils/wax.md.sig < soils/wax.md
//
// The form of a signature is OpenSSH's PROTOCOL.sshsig, that of the list of those who may sign is told in ssh-keygen(1), ALLOWED SIGNERS.
package signature
