package main

import "testing"

const floorFound = `pieces:
  - measure: [AB=4000, BC=3000, CA=5000]
    found: [AB=4001]
`

// wrongChecks: what is said of what was measured back.
var wrongChecks = []wrong{
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m"}, status: statusWords,
		line: "nothing says what was found",
		hint: "--found AB=4510,BC=3005, or --found site.csv, or in the job, under the piece: found: [AB=4510, BC=3005]"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", ""}, status: statusWords,
		line: "--found: wants a value",
		hint: "what was measured back: --found AB=4510,BC=3005, or a file: --found site.csv"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "AQ=3000"}, status: statusWords,
		line: "--found: AQ=3000: Q was not asked for",
		hint: "the pegs are A, B and C"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "AB=4m,BA=4.1m"}, status: statusWords,
		line: "--found: BA=4.1m: BA is found twice, as 4m before",
		hint: "give the one that holds, or the mean of both"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "AB=long"}, status: statusWords,
		line: `--found: AB=long: "long" is not a length`,
		hint: "lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2\""},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "AB=4000+-0"}, status: statusWords,
		line: `--found: AB=4000+-0: a tolerance of "0" allows nothing`,
		hint: "leave it out: then it is half of the last digit written"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "site.csv"}, status: statusWords,
		line: "--found: site.csv: there is no such file",
		hint: "name a file of measurements, or give them: --found AB=4510,BC=3005"},
	{args: []string{"check", "job.yaml", "--found", "AB=4001"}, job: floorFound, status: statusWords,
		line: "--found: the job says as well what was found: job.yaml:3:12",
		hint: "leave one of the two out"},
	{args: []string{"check", "job.yaml", "--found", "AB=4001"}, job: "pieces:\n- name: North bay\n  measure: [AB=4000, BC=3000, CA=5000]\n- name: South bay\n  measure: [AB=4000, BC=3000, CA=5000]\n", status: statusWords,
		line: "--found: the job has 2 pieces, and it does not say which was found",
		hint: `--piece "North bay", or give each its own found: in the job`},
	{args: []string{"check", "job.yaml", "--found", "AB=4001", "--piece", "Sowth bay"}, job: "pieces:\n- name: North bay\n  measure: [AB=4000, BC=3000, CA=5000]\n- name: South bay\n  measure: [AB=4000, BC=3000, CA=5000]\n", status: statusWords,
		line: `--piece: the job has no piece "Sowth bay"`,
		hint: `did you mean "South bay"?`},
	{args: []string{"check", "job.yaml"}, job: "pieces:\n- measure: [AB=4000, BC=3000, CA=5000]\n  found: [AB=4001, BC=30OO]\n", status: statusWords,
		line: `job.yaml:3:20: BC=30OO: "30OO" is not a length`,
		hint: "write digits, not letters that look like them: 3000"},
	{args: []string{"check", "AB=4m", "BC=3m", "CA=5m", "--found", "AB=4001", "-o", "out.doc"}, status: statusWords,
		line: `-o out.doc: ".doc" is not an ending that is known here`,
		hint: "endings: .pdf, .svg, .txt, .csv"},
	{args: []string{"check", "AB=80", "A=35deg", "BC=60", "--found", "AB=80"}, status: statusNoTriangle,
		line: "two triangles fit: (1) AB 80, BC 60, CA 104.2; (2) AB 80, BC 60, CA 26.9",
		hint: "pick one with --pick 1 or --pick 2, or make both with --pick both"},
}

func TestWrongChecks(t *testing.T) {
	t.Parallel()
	dir := place(t)
	for _, c := range wrongChecks {
		c.check(t, dir)
	}
}
