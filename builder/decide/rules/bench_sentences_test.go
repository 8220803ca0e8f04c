package rules

import (
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// BenchmarkSentences reports how well the rules of running text judge: recall and precision on each file of labelled sentences, and alarms in a
// thousand sentences of other trades.
func BenchmarkSentences(b *testing.B) {
	for b.Loop() {
		bench := newSentenceBench(b)
		for _, name := range caseFiles(b) {
			all, _ := scoreFile(b, bench, name, func(labelledCase, []finding.Finding) {})
			file := strings.TrimSuffix(filepath.Base(name), ".txt")
			b.ReportMetric(all.recall(), "recall-"+file)
			b.ReportMetric(all.precision(), "precision-"+file)
			b.ReportMetric(float64(all.mistakes+all.near), "cases-"+file)
		}
		sentences, alarms := foreignAlarms(b)
		b.ReportMetric(1000*float64(len(alarms))/float64(sentences), "foreign-alarms/1000")
		b.ReportMetric(float64(sentences), "foreign-sentences")
	}
	b.ReportMetric(0, "ns/op")
}
