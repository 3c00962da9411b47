package main

// wrongFiles: layers, whole pieces, rolls, shared pages.
var wrongFiles = []wrong{
	{args: []string{"template", "AB=60", "BC=45", "CA=45", "--without", "outline", "-o", "out.pdf"}, status: words,
		line: "--without: the outline is what is cut, and stays",
		hint: "layers: construction, dimensions, joins, notes"},
	{args: []string{"template", "AB=60", "BC=45", "CA=45", "--without", "note", "-o", "out.pdf"}, status: words,
		line: `--without: "note" is not a layer`,
		hint: `did you mean "notes"?`},
	{args: []string{"template", "AB=60", "BC=45", "CA=45", "--without", "notes,furniture", "-o", "out.pdf"}, status: words,
		line: `--without: "furniture" is not a layer`,
		hint: "known: construction, dimensions, joins, notes"},
	{args: []string{"template", "AB=60", "BC=45", "CA=45", "--without", "notes,,joins", "-o", "out.pdf"}, status: words,
		line: `--without: "" is not a layer`,
		hint: "known: construction, dimensions, joins, notes"},
	{args: []string{"template", "AB=60", "BC=45", "CA=45", "--without", "", "-o", "out.pdf"}, status: words,
		line: "--without: wants a value"},
}
