package profiles

import (
	"errors"
	"reflect"
	"testing"

	"trammel/geom/unit"
)

// A profile that a job brings along is what it was, whatever anybody's own say.
func TestCarried(t *testing.T) {
	mine := load(t, File{"own.yaml", []byte("papers: {Quay: {width: 11 in, height: 16.51 in}}\nprinters: {Shed: {left: 0.3 in, top: 4.1 mm}}\n" +
		"trades: {Sail-maker: {unit: ft, show: [], compass: 7'-10 1/2\", protractor: 0.1deg}, mute: {show: [steps]}}")})
	for _, name := range []string{"general", "joiner", "tiler", "teacher", "sail maker", "mute"} {
		want, err := mine.Trade(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadTrade(want.Name, want.Carried())
		got.From, got.Said, want.From, want.Said = nil, nil, nil, nil
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s is %+v, was %+v, %v", name, got, want, err)
		}
	}
	for _, name := range []string{"A4", "arch d", "quay", "300x500", "12 x 18 in", "914xany"} {
		want, err := mine.Paper(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadPaper(want.Name, want.Said)
		if err != nil || got.Name != want.Name || got.Width != want.Width || got.Height != want.Height || got.Roll != want.Roll {
			t.Errorf("%s is %+v, was %+v, %v", name, got, want, err)
		}
	}
	for _, name := range []string{"office", "plotter", "shed"} {
		want, err := mine.Printer(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadPrinter(want.Name, want.Said())
		got.From, want.From = nil, nil
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s is %+v, was %+v, %v", name, got, want, err)
		}
	}
}

func TestCarriedRefuses(t *testing.T) {
	at := func(key, text string) []Item { return []Item{{key, text, "x.pdf (j:4:2)"}} }
	trade := func(i []Item) error { _, err := ReadTrade("x", i); return err }
	paper := func(i []Item) error { _, err := ReadPaper("x", i); return err }
	printer := func(i []Item) error { _, err := ReadPrinter("x", i); return err }
	for _, c := range []struct {
		read func([]Item) error
		said []Item
		want string
	}{
		{trade, at("lettering", "300 mm"), `x.pdf (j:4:2): lettering: "300 mm" is more than 20 mm, the most that is read`},
		{trade, at("letering", "3 mm"), `x.pdf (j:4:2): "letering" is not known of trades`},
		{trade, at("width", "300 mm"), `x.pdf (j:4:2): "width" is not known of trades`},
		{trade, at("show", "arcs nothing"), `x.pdf (j:4:2): show: "nothing" is not known`},
		{paper, at("width", "300"), `x.pdf (j:4:2): width: 300 stands without its unit`},
		{paper, at("width", "300 mm"), `x.pdf (j:4:2): the paper has one side alone`},
		{paper, nil, `"x" is no paper that is known`},
		{printer, at("left", "a lot"), `x.pdf (j:4:2): left: "a lot" is not a length`},
	} {
		var f *unit.Fault
		if err := c.read(c.said); !errors.As(err, &f) || err.Error() != c.want {
			t.Errorf("%v: %v, want %s", c.said, err, c.want)
		}
	}
}
