// Package control holds the arithmetic of control charts for single readings: individuals and moving range, the exponentially weighted moving
// average, run rules, and the trend of the newest readings with the time at which it meets a limit.
//
// Everything is a pure function of numbers. What a number is, which readings make the baseline and what a limit of the process is, is said
// elsewhere: control limits tell what a bath has done so far, never what it may do.
//
// # Sources
//
//   - Individuals and moving range: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; ISO 7870-2:2013 (Shewhart charts).
//   - EWMA: the same, 6.3.2.4; ISO 7870-6:2016; Lucas and Saccucci, Technometrics 32 (1990), 1–12.
//   - Run rules: Western Electric, Statistical Quality Control Handbook (1956); NIST/SEMATECH e-Handbook, 6.3.2.
//   - Trend: least squares with the confidence band of the mean response, NIST/SEMATECH e-Handbook, 4.5.1; the correction for readings that
//     hang together by their lag-1 correlation, Bartlett, J. Roy. Stat. Soc. 98 (1935), 536–543 (from memory).
//
// How often the rules call out a bath that has not changed is simulated in the tests and compared with published tables.
package control
