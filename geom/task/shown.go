package task

// shown are the tasks of model sheets, one of each kind. Nobody is asked for what is shown: a
// length on whole fives stands beside one that is not, which no level has.
var shown = [kinds]Task{
	{SSS, [3]int{90, 80, 62}},
	{SAS, [3]int{90, 50, 62}},
	{SASO, [3]int{70, 120, 62}},
	{ASA, [3]int{90, 50, 62}},
	{AAS, [3]int{90, 60, 72}},
	{RHS, [3]int{60, 90, 92}},
	{LEGS, [3]int{90, 90, 62}},
	{SSA2, [3]int{100, 30, 62}},
	{SSA1, [3]int{70, 40, 88}},
	{SSA0, [3]int{100, 30, 42}},
	{BHA, [3]int{90, 62, 50}},
	{BHS, [3]int{90, 50, 62}},
	{ISO, [3]int{60, 82, 82}},
}

// Shown is the task of a kind's model sheet.
func Shown(k Kind) Task { return shown[k] }
