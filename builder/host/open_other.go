//go:build !windows

package host

// movesOpen tells whether a folder can be moved while files in it are open. Then a file is sent from the disk, however large it is and however slow
// its reader.
const movesOpen = true
