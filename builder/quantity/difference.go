package quantity

// Phrases before and behind a number of degrees that make it a difference of temperatures, each list with commas between them: for the reader
// of sentences and for what writes amounts in both families of units alike.
const (
	DifferenceBefore = "by,within,±,+ -,+ / -,give or take,every,per,each,step of,steps of,rise of,drop of,difference of,fall of,spread of,margin of,rule of,distance of,swing of,plus,minus,another,further,extra,gap of,gains,gain,loses,lose,shrinks,apart,off by,jump of,jumps of,change of,shock of,differs by,differ by"
	DifferenceBehind = "hotter,cooler,colder,warmer,higher,lower,more,less,apart,off,too,an hour,per hour,a minute,per minute,each hour,/,stronger,weaker,longer,shorter,extra,above the,above its,below the,below its,under the,under its,over the,over its,short of,above set,below set,under set,over set,above room,from the,from its,from set,of the set,a day,per day,every,step,steps,rise,drop,difference,jump,margin,swing,shock,below flash,under flash,above that,below that,under that,below their,inside,change,away,per,below that,each,in hand,to spare,of margin,in reserve,clear of"
)
