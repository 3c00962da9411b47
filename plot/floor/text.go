package floor

import (
	"fmt"
	"io"

	"trammel/geom/unit"
	"trammel/plot/phone"
	"trammel/plot/words"
	"trammel/plot/words/laying"
)

// Text is the floor for a phone: figures first, cautions last.
func (s Sheet) Text(out io.Writer) error {
	var t phone.Text
	s.figures(&t)
	say := s.says()
	head := func(p laying.Part) { t.Head(say.Heading(p)) }
	if s.Single {
		head(laying.Before)
		t.List(words.In(s.Language).Cautions().SetOut(false))
		_, err := t.WriteTo(out)
		return err
	}
	if len(s.drawn().Kinds) > 0 {
		head(laying.TheCuts)
		s.cutsText(&t)
		s.taperText(&t)
	}
	head(laying.TheLimits)
	t.List(append([]string{say.Gap(s.laid())}, say.Limits(s.laid())...))
	head(laying.Before)
	t.List(words.In(s.Language).Cautions().SetOut(false))
	_, err := t.WriteTo(out)
	return err
}

// Brief is what there is to know before anything is printed.
func (s Sheet) Brief(out io.Writer) error {
	var t phone.Text
	s.figures(&t)
	_, err := t.WriteTo(out)
	return err
}

// figures are the starts, the lines and what to buy.
func (s Sheet) figures(t *phone.Text) {
	say := s.says()
	if s.Single {
		t.Para("", s.Title())
		s.cutsText(t)
		return
	}
	t.Para("", s.Title())
	t.Para("", say.Tile(s.laid()))
	head := func(p laying.Part) { t.Head(say.Heading(p)) }

	head(laying.TheStarts)
	rows := [][]string{say.Columns(laying.TheStarts)[:5]}
	for _, c := range s.Plan.Choices {
		rows = append(rows, []string{say.Aim(c.Aim), fmt.Sprint(len(c.Whole)), fmt.Sprint(len(c.Pieces)), fmt.Sprint(len(c.Kinds)), s.Figures.Length(unit.Length(c.Measures.Narrowest))})
	}
	t.Table(rows)
	t.Para("", say.Best(s.laid()))
	t.Para("", say.Proof(s.laid()))
	t.List(say.Counts(s.laid()))
	t.List(tables{s}.triedWords())

	head(laying.TheLines)
	for i, step := range s.startWords() {
		t.Para(fmt.Sprintf("%d. ", i+1), step)
	}
	head(laying.TheBuying)
	t.List(say.Buying(s.buy()))
}

// cutsText is a card after another, and how they are read.
func (s Sheet) cutsText(t *phone.Text) {
	say := s.says()
	for _, k := range s.cards() {
		t.Line("")
		t.Para("", say.Kind(k.Card))
		for _, m := range say.Marks(k.cuts, s.Figures) {
			t.Para("  ", m)
		}
		if care := say.Care(k.Card); care != "" {
			t.Para("  ", care)
		}
		t.Para("  ", joined(k.Tiles))
	}
	t.Line("")
	for _, l := range say.Cards(s.laid()) {
		t.Para("", l)
	}
}

func (s Sheet) taperText(t *phone.Text) {
	all, _ := s.tapers()
	for _, one := range all {
		t.Head(s.says().Heading(laying.TheTapers))
		how, columns := s.says().Taper(s.Outline.Side(one.Wall), one.Side)
		t.Para("", how)
		t.Table(append([][]string{columns}, (tables{s}).taperTable(one).Cells...))
	}
}

// joined are names in a row.
func joined(names []string) (all string) {
	for i, n := range names {
		if i > 0 {
			all += ", "
		}
		all += n
	}
	return all
}
