// Package adjust is the least-squares adjustment of measured distances, angles and
// heights of lettered points: for nets, whose places are sought, and for layouts that
// are held against what was wanted.
//
// Files, from the top floor to the ground: doc.go, book.go, intersection.go,
// solve.go, covariance.go, equations.go, observation.go.
//
// # Standard deviations
//
// σ is the standard deviation of one measurement. It comes
//
//   - from a stated tolerance: "±t" is read as what 95 of 100 readings keep,
//     σ = t/2 (Expansion; coverage factor 2 of JCGM 100:2008, 6.2.2 and 6.3.3);
//   - else from the tools: the tape's maximum permissible error after Directive
//     2014/32/EU, annex X, is a bound inside which nothing is likelier than
//     anything else, σ = bound/√3 (JCGM 100:2008, 4.3.7); nail and eye, ±1 mm
//     unless the tools say otherwise, are a tolerance, σ = t/2; half of the last
//     digit written is a bound again, σ = half/√3. The three are taken as
//     independent: their squares add.
//
// Angles have the instrument's tolerance and its centring in the tape's stead
// (see Tools). Errors of one tape are taken as independent from pull to pull; that
// one tape is long or short all along is a matter for Standard.
package adjust
