package main

import (
	"strings"
	"testing"
	"time"
)

// A computer whose battery is empty begins in 1970, and says so on every page that it publishes.
func TestClockBehind(t *testing.T) {
	t.Parallel()
	if told := clockBehind(time.Date(1970, 1, 1, 0, 3, 0, 0, time.UTC)); !strings.Contains(told, "1970-01-01") || !strings.Contains(told, "set the clock") {
		t.Errorf("of a clock in 1970 it says %q", told)
	}
	if told := clockBehind(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)); told != "" {
		t.Errorf("of the first day: %q", told)
	}
}
