package task

// seven is what the first and the last pupil have of seed 7 at level 2.
var seven = [2]string{
	"[{SSS [120 115 80]} {SAS [105 45 80]} {SASO [60 120 70]} {ASA [90 30 35]} {AAS [120 40 95]} {RHS [55 90 95]} {SSA2 [95 20 45]} {BHA [90 55 45]}]",
	"[{SSS [75 85 95]} {SAS [115 65 75]} {SASO [85 105 55]} {ASA [110 30 55]} {AAS [55 40 55]} {RHS [45 90 60]} {SSA2 [85 37 65]} {BHA [75 50 40]}]",
}
