package host

// movesOpen tells whether a folder can be moved while files in it are open.
const movesOpen = false
