package pdf

import "fmt"

// tree is the tree of pages: so many a branch that no reader walks a long list.
type tree struct {
	root     ref
	branch   ref
	leaves   []ref
	branches []byte
	pages    int
}

const perBranch = 64

func (t *tree) parent(f *file) ref {
	if t.branch == 0 {
		t.branch = f.reserve()
	}
	return t.branch
}

func (t *tree) add(f *file, page ref) {
	t.leaves = append(t.leaves, page)
	t.pages++
	if len(t.leaves) == perBranch {
		t.close(f)
	}
}

func (t *tree) close(f *file) {
	if t.branch == 0 {
		return
	}
	f.object(t.branch, fmt.Appendf(nil, "<< /Type /Pages /Parent %d 0 R /Count %d /Kids [%s] >>", t.root, len(t.leaves), refs(t.leaves)))
	t.branches = fmt.Appendf(t.branches, "%d 0 R ", t.branch)
	t.branch, t.leaves = 0, t.leaves[:0]
}

func (t *tree) finish(f *file) {
	t.close(f)
	f.object(t.root, fmt.Appendf(nil, "<< /Type /Pages /Count %d /Kids [%s] >>", t.pages, t.branches))
}

func refs(list []ref) []byte {
	var b []byte
	for _, r := range list {
		b = fmt.Appendf(b, "%d 0 R ", r)
	}
	return b
}
