package page

// NoticesFile is the file of an edition with the licences of the software in it.
const NoticesFile = "notices.txt"
