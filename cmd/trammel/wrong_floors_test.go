package main

// wrongFloors: what a job may not say of tiles and openings.
var wrongFloors = []wrong{
	floorWrong("", "size: 4000", "job.yaml:5:19: size: one tile is larger than the floor",
		"write the size of a tile as measured, such as size: 600x300, and its unit where bare numbers count another"),
	floorWrong("", "size: 300, joint: 300", "job.yaml:5:31: joint: it is as wide as the tile, or wider", "write the joint between two tiles, such as joint: 3"),
	floorWrong("", "size: 300, joint: -1", `job.yaml:5:31: joint: "-1" is negative`, "write a length without a sign"),
	floorWrong("", "size: 0", `job.yaml:5:19: size: "0" is no length at all`, "the least is 5 mm"),
	floorWrong("", "size: 300x", `job.yaml:5:19: size: "300x" is not a length: "x" is not a unit of length`, "units are mm, cm, m, in or ft"),
	floorWrong("", "size: 7", "job.yaml:5:19: size: the floor takes some 60000 tiles, and no more than 20000 are laid", "a floor of that size is parted at its movement joints: make a piece of each part"),
	floorWrong("", "size: 300, gap: 1000", "job.yaml:5:12: the gaps and openings leave nothing of the floor", "write narrower gaps, such as gap: 8"),
	floorWrong("", "size: 300, gap: [AB 5, XY 3]", "job.yaml:5:36: gap: there is no wall XY", "its walls are AB, BC, CD and DA"),
	floorWrong("", "size: 300, gap: [AB 5, wide]", `job.yaml:5:36: gap: "wide" does not name a wall`, "write each wall and its gap, such as gap: [AB 5, FA 12]; the others have none"),
	floorWrong("", "size: 300, pattern: brick 3/2", `job.yaml:5:33: pattern: "brick 3/2" moves each row by a whole tile or more, or by nothing`,
		"each row lies a part of a tile further on: write straight, brick 1/2, brick 1/3 or herringbone"),
	floorWrong("", "size: 300, pattern: herringbone", "job.yaml:5:33: pattern: herringbone wants tiles that are longer than wide, the length first", "write such as size: 600x300, or another pattern"),
	floorWrong("", "size: 300, along: AE", "job.yaml:5:31: along: there is no wall AE", "its walls are AB, BC, CD and DA"),
	floorWrong("", "size: 300, along: ab", `job.yaml:5:31: along: "ab" does not name a wall`, "points have capital letters: AB"),
	floorWrong("", "size: 300, centre: AC", "job.yaml:5:32: centre: there is no wall AC", "its walls are AB, BC, CD and DA"),
	floorWrong("", "size: 300, layout: pretty", `job.yaml:5:32: layout: "pretty" is not a layout`, "write balanced, widest or fewest, or take the line out: then all three are shown"),
	floorWrong("", "size: 300, box: 0", `job.yaml:5:29: box: "0" is not a number of tiles from 1 to 1000`, "write how many tiles are in a box, such as box: 11"),
	floorWrong("", "joint: 3", "job.yaml:5:12: the tiles have no size", "size: 600x300, as measured; 600 alone is square"),
	floorWrong("post at AB 1900 from A 900 size 150x150", "size: 300", "job.yaml:6:16: openings: post stands outside the floor or in a wall", "measure it again: an opening lies whole in the floor, and clear of others"),
	floorWrong("post at AB 900 from A 900 size 150x150, shaft at AB 1000 from A 1000 size 300x300", "size: 300", "job.yaml:6:56: openings: shaft stands in post", "measure it again: an opening lies whole in the floor, and clear of others"),
	floorWrong("post at AX 900 from A 900 size 150x150", "size: 300", "job.yaml:6:16: openings: there is no wall AX", "its walls are AB, BC, CD and DA"),
	floorWrong("shaft A B Q", "size: 300", "job.yaml:6:16: openings: there is no point Q", "measure it as the others of the floor"),
	{args: []string{"floor", "job.yaml", "--shift", "12"}, job: floorJob("", "size: 300"), status: statusWords, line: `--shift: "12" is not two distances`, hint: "along the rows and across them, such as --shift 281.5,284.5"},
	{args: []string{"floor", "AB=3m", "BC=2m", "CA=3m"}, status: statusWords, line: "no piece of the job says which tiles it is laid with", hint: "tiles: and below it  size: 600x300  and  joint: 3"},
}

func floorJob(openings, tiles string) string {
	job := "pieces:\n  - name: Store\n    measure: [AB=3000, BC=2000, CD=3000, DA=2000, AC=3605.5513]\n    outline: [A, B, C, D]\n"
	if openings != "" {
		return job + "    tiles: {" + tiles + "}\n    openings: [" + openings + "]\n"
	}
	return job + "    tiles: {" + tiles + "}\n"
}

func floorWrong(openings, tiles, line, hint string) wrong {
	return wrong{args: []string{"floor", "job.yaml", "-o", "out.pdf"}, job: floorJob(openings, tiles), status: statusWords, line: line, hint: hint}
}
