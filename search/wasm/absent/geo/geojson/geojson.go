// Package geojson stands in for shapes on the globe in the browser build.
//
// A manual has no such shapes: every function answers with [ErrAbsent] or with
// nothing. See the neighbouring package s2.
package geojson

import (
	"bytes"
	"errors"

	index "github.com/blevesearch/bleve_index_api"
	"github.com/blevesearch/geo/s2"
)

// ErrAbsent is the answer of every function that can return an error.
var ErrAbsent = errors.New("places on the globe are not in the browser build")

// GeoShape mirrors the fields that bleve sets.
type GeoShape struct {
	Type        string
	Coordinates [][][][]float64
	Radius      string
	Center      []float64
}

// GeometryCollection and Envelope are only compared with by type.
type (
	GeometryCollection struct {
		index.GeoJSON
		Shapes []index.GeoJSON
	}
	Envelope struct{ index.GeoJSON }
)

func (*Envelope) Marshal() ([]byte, error) { return nil, ErrAbsent }

func NewGeometryCollection([]*GeoShape) (index.GeoJSON, []byte, error) { return nil, nil, ErrAbsent }

func NewGeoCircleShape([]float64, string) (index.GeoJSON, []byte, error) {
	return nil, nil, ErrAbsent
}

func NewGeoJsonShape([][][][]float64, string) (index.GeoJSON, []byte, error) {
	return nil, nil, ErrAbsent
}

func NewGeoJsonPoint([]float64) index.GeoJSON               { return nil }
func NewGeoJsonMultiPoint([][]float64) index.GeoJSON        { return nil }
func NewGeoJsonLinestring([][]float64) index.GeoJSON        { return nil }
func NewGeoJsonMultilinestring([][][]float64) index.GeoJSON { return nil }
func NewGeoJsonPolygon([][][]float64) index.GeoJSON         { return nil }
func NewGeoJsonMultiPolygon([][][][]float64) index.GeoJSON  { return nil }
func NewGeoCircle([]float64, string) index.GeoJSON          { return nil }
func NewGeoEnvelope([][]float64) index.GeoJSON              { return nil }

func ParseGeoJSONShape([]byte) (index.GeoJSON, error) { return nil, ErrAbsent }

func ExtractShapesFromBytes([]byte, **bytes.Reader, *s2.GeoBufferPool) (index.GeoJSON, error) {
	return nil, ErrAbsent
}

func FilterGeoShapesOnRelation(index.GeoJSON, []byte, string, **bytes.Reader,
	*s2.GeoBufferPool) (bool, error) {
	return false, ErrAbsent
}

func DeduplicateTerms(terms []string) []string   { return terms }
func StripCoveringTerms(terms []string) []string { return terms }
