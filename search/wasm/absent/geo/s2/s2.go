// Package s2 stands in for spherical geometry in the browser build.
//
// bleve can index places on the globe; a manual has none. The types are here
// so that bleve's packages compile; none of the functions is ever called for a
// document that holds text only.
package s2

type (
	// Options takes settings and forgets them.
	Options struct{}
	// RegionTermIndexer turns every region into no terms.
	RegionTermIndexer struct{}
	CellID            uint64
	Point             struct{}
	LatLng            struct{}
	Rect              struct{}
	Cap               struct{}
	Loop              struct{}
	Polygon           struct{}
	GeoBufferPool     struct{}
)

func (*Options) SetMaxLevel(int)    {}
func (*Options) SetMinLevel(int)    {}
func (*Options) SetLevelMod(int)    {}
func (*Options) SetMaxCells(int)    {}
func (*Options) SetPointsOnly(bool) {}

func NewRegionTermIndexerWithOptions(Options) *RegionTermIndexer { return &RegionTermIndexer{} }

func (*RegionTermIndexer) GetIndexTermsForPoint(Point, string) []string { return nil }
func (*RegionTermIndexer) GetQueryTermsForRegion(any, string) []string  { return nil }

func CellIDFromFace(int) CellID      { return 0 }
func (c CellID) Level() int          { return 0 }
func (c CellID) Parent(int) CellID   { return c }
func (c CellID) RangeMin() CellID    { return c }
func (c CellID) RangeMax() CellID    { return c }
func (c CellID) IsValid() bool       { return false }
func (c CellID) Children() [4]CellID { return [4]CellID{} }

func LatLngFromDegrees(lat, lng float64) LatLng                   { return LatLng{} }
func PointFromLatLng(LatLng) Point                                { return Point{} }
func RectFromDegrees(minLat, minLng, maxLat, maxLng float64) Rect { return Rect{} }
func CapFromCenterAndRadius(lat, lng, radius float64) Cap         { return Cap{} }
func LoopFromPoints([]Point) *Loop                                { return &Loop{} }
func PolygonFromOrientedLoops([]*Loop) *Polygon                   { return &Polygon{} }
func (*Polygon) CapBound() Cap                                    { return Cap{} }
