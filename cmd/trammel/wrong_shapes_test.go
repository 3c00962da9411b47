package main

// wrongShapes: what is to be done to a piece beyond its outline.
var wrongShapes = []wrong{
	shapeWrong("edges: [AB allow 3x]", `job.yaml:4:13: AB allow 3x: "3x" is not a length: "x" is not a unit of length`, "units are mm, cm, m, in or ft"),
	shapeWrong("edges: [AD allow 3]", "job.yaml:4:13: AD allow 3: the piece has no corner D", "its corners are A, B and C"),
	shapeWrong("edges: [AB allow -200]", "job.yaml:4:13: AB allow -200: the allowances eat edge AB: it has 200 mm and they take 357.8 mm of it",
		"bring the cut lines nearer to the finished edges"),
	shapeWrong("edges: [AB allow 3, BA allow 2]", "job.yaml:4:25: BA allow 2: edge AB has an allowance already (AB allow 3)", "keep one of both"),
	shapeWrong("corners: [A cut 150, B cut 150]", "job.yaml:4:15: A cut 150: corners A and B take 150 mm and 150 mm of edge AB, which has 200 mm",
		"a set-back of less than 50 mm leaves something of the edge"),
	shapeWrong("corners: [B round 400]", "job.yaml:4:15: B round 400: the corner takes 894.4 mm of edge AB, which has 200 mm",
		"the largest radius that AB leaves room for is 89.4 mm"),
	shapeWrong("corners: [A blunt 5]", "job.yaml:4:15: A blunt 5: edges CA and AB have no allowance outside, so that nothing is to be cut off beyond A", "leave it out"),
	shapeWrong("corners: [A mitre 100]", `job.yaml:4:15: A mitre 100: "100" is not the name of an edge`, "a mitre is written A mitre, or A mitre AB 100 CA 60 where the parts along the edges are 100 and 60 wide"),
	shapeWrong("corners: [A mitre AB 100 BC 60]", "job.yaml:4:15: A mitre AB 100 BC 60: the edges that meet at A are CA and AB", "give the width of the part along each"),
	shapeWrong("corners: [A mitre AB 100]", "job.yaml:4:15: A mitre AB 100: an edge is missing", "a mitre is written A mitre, or A mitre AB 100 CA 60 where the parts along the edges are 100 and 60 wide"),
	shapeWrong("corners: [A mitre, A cut 5]", "job.yaml:4:24: A cut 5: something is done to corner A already (A mitre)", "keep one of both"),
	shapeWrong("holes: [12 at AB 3 from A 60]", "job.yaml:4:13: 12 at AB 3 from A 60: the hole reaches 3 mm across edge AB",
		"its centre is 3 mm inside of it and its radius is 6 mm"),
	shapeWrong("holes: [12 at AB 40 from C 60]", "job.yaml:4:13: 12 at AB 40 from C 60: C is no end of edge AB", "say from which of its ends the distance along it runs"),
	shapeWrong("holes: [12 at A 10 B 10]", "job.yaml:4:13: 12 at A 10 B 10: 10 mm from A and 10 mm from B together are 180 mm short of the 200 mm between A and B", ""),
	shapeWrong("holes: [12 at AB 40 from A 100, 12 at AB 40 from A 105]", "job.yaml:4:37: 12 at AB 40 from A 105: the hole overlaps the one before it (12 at AB 40 from A 100) by 7 mm",
		"their centres are 5 mm apart; their radii together are 12 mm"),
	shapeWrong("grain: AD", "job.yaml:4:12: grain: AD is no edge of the piece", "the edges are AB, BC and CA"),
	shapeWrong("face: sideways", `job.yaml:4:11: face: "sideways" is not a way for a face to lie`, "write up or down, or take the line out"),
	shapeWrong("handed: left", `job.yaml:4:13: handed: "left" is not a way to hand a piece`, "write pair for one of each hand, or take the line out"),
}

func shapeWrong(key, line, hint string) wrong {
	return wrong{
		args: []string{"template", "job.yaml", "-o", "out.pdf"}, job: "pieces:\n  - name: Plate\n    measure: [AB=200, BC=150, CA=150]\n    " + key + "\n",
		status: statusWords, line: line, hint: hint,
	}
}
