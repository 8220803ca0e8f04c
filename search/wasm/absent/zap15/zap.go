// Package zap stands in for segment format 15 in the browser build; see format 11.
package zap

import "github.com/blevesearch/zapx/v11"

// ZapPlugin is the stand-in that format 11 describes.
type ZapPlugin = zap.ZapPlugin
