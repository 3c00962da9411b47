package classroom

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/pdf"
	"trammel/plot/tasks"
	"trammel/plot/words"
)

// Class is the sheets of a class on a paper.
type Class struct {
	tasks.Set
	Sheets   []string
	On       paging.Sheet
	Warp     func(draw.Page) draw.Page                                 // for a printer
	FileName func(string) string                                       // what every file system takes of a name
	Paint    func(out io.Writer, p draw.Page, pixel unit.Length) error // nil: nothing is painted
}

// Apart refuses one file for what pupils get and for what they must not see.
func (c *Class) Apart() error {
	if len(c.Sheets) > 1 && slices.Contains(c.Sheets, Task) {
		return &unit.Fault{What: "task sheets and " + strings.Join(slices.DeleteFunc(slices.Clone(c.Sheets), func(s string) bool { return s == Task }), ", ") + " are not put into one file: pupils would have the answers",
			Hint: "name a folder: -o set/"}
	}
	return nil
}

// Pages of sheets by their names, one after the other.
func (c *Class) Pages(names []string) (iter.Seq[draw.Page], error) {
	var all []iter.Seq[draw.Page]
	for _, name := range names {
		switch name {
		case "task":
			seq, err := c.TaskPages(c.On, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, func(yield func(draw.Page) bool) {
				for _, p := range seq {
					if !yield(p) {
						return
					}
				}
			})
		case "key":
			pages, err := c.KeyPages(c.On, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, slices.Values(pages))
		case "answers":
			pages, err := c.AnswerPages(c.On, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, pages)
		case "overlay":
			pages, err := c.OverlayPages(c.On, lettering.Go())
			if err != nil {
				return nil, err
			}
			all = append(all, pages)
		case "model", "screen":
			make := func() ([]draw.Page, error) { return c.ModelPages(c.On, lettering.Go()) }
			if name == "screen" {
				make = func() ([]draw.Page, error) { return c.ScreenPages(lettering.Go()) }
			}
			pages, err := make()
			if err != nil {
				return nil, err
			}
			all = append(all, slices.Values(pages))
		}
	}
	return func(yield func(draw.Page) bool) {
		for _, seq := range all {
			for p := range seq {
				if !yield(c.Warp(p)) {
					return
				}
			}
		}
	}, nil
}

// Folder has a PDF of each kind of sheet; of the task sheets one for each pupil.
func (c *Class) Folder(file func(name string, write func(io.Writer) error) error) error {
	put := func(name, subject string, pages iter.Seq[draw.Page]) error {
		head := draw.Document{Title: c.Title, Subject: subject, Language: words.In(c.Language).Aloud().Language(), Date: c.Date, Pages: pages}
		return file(name+".pdf", func(out io.Writer) error { return pdf.Write(out, head) })
	}
	for _, name := range c.Sheets {
		if name == "task" {
			if err := c.eachPupil(put); err != nil {
				return err
			}
			continue
		}
		pages, err := c.Pages([]string{name})
		if err != nil {
			return err
		}
		if err := put(name, name, pages); err != nil {
			return err
		}
		switch {
		case name == "key":
			err = file("key.csv", c.KeyCSV)
		case name == "screen" && c.Paint != nil:
			err = c.pictures(pages, file)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// across is how many pixels a projector's page has from side to side.
const across = 1920

// pictures are the pages of a projector, one a file.
func (c *Class) pictures(pages iter.Seq[draw.Page], file func(name string, write func(io.Writer) error) error) error {
	n := 0
	for p := range pages {
		n++
		if err := file(fmt.Sprintf("screen-%03d.png", n), func(out io.Writer) error { return c.Paint(out, p, p.Width/across) }); err != nil {
			return err
		}
	}
	return nil
}

// eachPupil puts the tasks of each into a file.
func (c *Class) eachPupil(put func(name, subject string, pages iter.Seq[draw.Page]) error) error {
	for i, p := range c.Pupils {
		one := c.Set
		one.Pupils = c.Pupils[i : i+1]
		seq, err := one.TaskPages(c.On, lettering.Go())
		if err != nil {
			return err
		}
		name := fmt.Sprintf("task-%0*d", len(fmt.Sprint(max(10, len(c.Pupils)))), p.Number)
		if p.Name != "" {
			name += "-" + c.FileName(p.Name)
		}
		if err := put(name, "task", func(yield func(draw.Page) bool) {
			for _, page := range seq {
				if !yield(c.Warp(page)) {
					return
				}
			}
		}); err != nil {
			return err
		}
	}
	return nil
}

// Summary says what was made, and what is not in it.
func (c *Class) Summary() []string {
	n := 0
	for _, p := range c.Pupils {
		n += len(p.Tasks)
	}
	all := []string{fmt.Sprintf("%s, %s: %s", lines.Plural(len(c.Pupils), "pupil"), lines.Plural(n, "task"), strings.Join(c.Sheets, ", "))}
	if slices.Contains(c.Sheets, "task") {
		all = append(all, "the job does not travel inside: with its seed anyone could make the key")
	}
	return all
}
