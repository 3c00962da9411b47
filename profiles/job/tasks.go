package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Tasks is what a class is to draw by hand.
type Tasks struct {
	Where string // of the key
	task.Class
	Places    []string // where each pupil is named; empty: the class is a number
	PupilsAt  string
	LevelAt   string
	KindsAt   string
	CompassAt string
	AcrossAt  string
	OnAPageAt string
	Large     bool // printed large: a task over two pages
}

// MaxPupils of a class, and MaxTasks of each.
const (
	MaxPupils = 200
	MaxTasks  = 12
)

// wanted are tasks as they are read, before what depends on what else is said.
type wanted struct {
	Tasks
	demandAt string
	accept   task.Tolerance
}

var taskKeys = []key[wanted]{
	{"pupils", func(t *wanted, v strict.Value) error { return t.pupils(v) }, nil},
	{"seed", func(t *wanted, v strict.Value) (err error) {
		t.Seed, err = v.Integer("seed", 0, 999_999_999)
		return err
	}, nil},
	{"level", func(t *wanted, v strict.Value) (err error) {
		t.LevelAt = v.Where()
		t.Level, err = levelOf(v)
		return err
	}, nil},
	{"kinds", func(t *wanted, v strict.Value) error { return t.kinds(v) }, nil},
	{"tolerance", func(t *wanted, v strict.Value) (err error) { t.accept, err = toleranceOf(v); return err }, nil},
	{"compass", func(t *wanted, v strict.Value) error {
		t.CompassAt = v.Where()
		return t.compass(v)
	}, nil},
	{"across", func(t *wanted, v strict.Value) (err error) {
		t.AcrossAt = v.Where()
		t.Across, err = v.Integer("across", 1, MaxPupils)
		return err
	}, nil},
	{"print", func(t *wanted, v strict.Value) (err error) {
		_, err = oneOf(v, "print", []string{"standard", "large"}, func(i int) { t.Large = i == 1 })
		return err
	}, nil},
	{"demand", func(t *wanted, v strict.Value) (err error) {
		t.demandAt = v.Where()
		t.Demand, err = demandOf(v)
		return err
	}, nil},
	{"on_a_page", func(t *wanted, v strict.Value) (err error) {
		t.OnAPageAt = v.Where()
		n, err := v.Integer("on_a_page", 1, 2)
		t.Low = n == 2
		return err
	}, nil},
}

// tasksOf reads what a class is to draw.
func tasksOf(v strict.Value) (*Tasks, error) {
	w := wanted{Tasks: Tasks{Where: v.Where()}, accept: task.Maths}
	w.Limits = task.School
	if err := readKeys(&w, v, "tasks", taskKeys); err != nil {
		return nil, err
	}
	if w.Limits.Accept = w.accept; w.Large { // who needs large letters reads instruments less finely
		w.Limits.Accept.MM, w.Limits.Accept.Deg = 2*w.accept.MM, 2*w.accept.Deg
	}
	if len(w.Kinds) == 0 {
		return nil, v.Fault("tasks has no kinds", "kinds: [SSS, SAS, ASA]; known: "+strings.Join(kindNames(), ", "))
	}
	if w.Demand == 0 {
		w.Demand = task.Standard
	}
	if w.Level == 0 {
		w.Level = task.Fives
		if w.Demand == task.Stretch {
			w.Level = task.Ones
		}
	}
	if w.Demand == task.Stretch && w.Level != task.Ones {
		return nil, &unit.Fault{Where: w.demandAt, What: fmt.Sprintf("demand: stretch has the numbers of level 3, and level says %d", w.Level), Hint: "take one of the two lines out"}
	}
	if w.Low && (w.Large || w.Demand == task.Support) {
		return nil, &unit.Fault{Where: w.OnAPageAt, What: "two tasks on a page leave no room for large print, nor for the steps of demand: support", Hint: "take one of the two lines out"}
	}
	return &w.Tasks, nil
}

func oneOf(v strict.Value, key string, known []string, take func(i int)) (int, error) {
	text, err := v.Text(key)
	if err != nil {
		return 0, err
	}
	i := slices.Index(known, strings.ToLower(text))
	if i < 0 {
		return 0, v.Fault(fmt.Sprintf("%s: %q is not known", key, strict.Shorten(text)), strict.Suggest(text, known))
	}
	take(i)
	return i, nil
}

func demandOf(v strict.Value) (d task.Demand, err error) {
	_, err = oneOf(v, "demand", demands(), func(i int) { d = task.Support + task.Demand(i) })
	return d, err
}

func demands() (all []string) {
	for _, d := range task.Demands() {
		all = append(all, d.String())
	}
	return all
}

func levelOf(v strict.Value) (task.Level, error) {
	n, err := v.Integer("level", 1, 3)
	return task.Level(n), hinting(err, "write 1 for whole centimetres, 2 for 5 mm and 5°, 3 for 1 mm and 1°")
}

// hinting gives a fault another hint.
func hinting(err error, hint string) error {
	var f *unit.Fault
	if !errors.As(err, &f) {
		return err
	}
	g := *f
	g.Hint = hint
	return &g
}

func kindNames() (all []string) {
	for _, k := range task.Kinds() {
		all = append(all, k.String())
	}
	return all
}

func (t *wanted) kinds(v strict.Value) error {
	t.KindsAt = v.Where()
	items, ok := v.Items()
	switch {
	case !ok:
		return v.Fault("kinds is not a list", "kinds: [SSS, SAS, ASA]; known: "+strings.Join(kindNames(), ", "))
	case len(items) > MaxTasks:
		return items[MaxTasks].Fault(fmt.Sprintf("more than %d tasks a pupil", MaxTasks), "make several sets of it")
	}
	for _, item := range items {
		text, err := item.Text("a kind")
		if err != nil {
			return err
		}
		k, known := task.KindNamed(text)
		if !known {
			return item.Fault(fmt.Sprintf("%q is not a kind of task", strict.Shorten(text)), strict.Suggest(text, kindNames()))
		}
		t.Kinds = append(t.Kinds, k)
	}
	return nil
}

// What somebody may say of marking and of compasses, in mm and degrees.
const (
	leastMarked, mostMarked   = 0.5, 10
	leastCompass, mostCompass = 60 * unit.Millimetre, 300 * unit.Millimetre
)

func toleranceOf(v strict.Value) (task.Tolerance, error) {
	const write = "write maths (2 mm, 2°), drawing (1 mm, 1°), or both yourself: tolerance: 2 mm, 3 deg"
	text, err := v.Text("tolerance")
	if err != nil {
		return task.Tolerance{}, err
	}
	switch strings.ToLower(text) {
	case "maths":
		return task.Maths, nil
	case "drawing":
		return task.Drawing, nil
	}
	length, angle, both := strings.Cut(text, ",")
	mm, bad := unit.ParseLength(strings.TrimSpace(length), unit.MM)
	deg, wrong := unit.ParseAngle(strings.TrimSpace(angle))
	if !both || bad != nil || wrong != nil {
		return task.Tolerance{}, v.Fault(fmt.Sprintf("tolerance: %q is not a length and an angle", strict.Shorten(text)), write)
	}
	t := task.Tolerance{MM: mm.Length().MM(), Deg: deg.Angle().Degrees()}
	if t.MM < leastMarked || t.MM > mostMarked || t.Deg < leastMarked || t.Deg > mostMarked {
		return t, v.Fault(fmt.Sprintf("tolerance: %q is nothing that a class can be marked by", strict.Shorten(text)), "from 0.5 mm and 0.5° to 10 mm and 10°; "+write)
	}
	return t, nil
}

func (t *wanted) compass(v strict.Value) error {
	text, err := v.Text("compass")
	if err != nil {
		return err
	}
	l, err := unit.ParseSetting(text, unit.MM, leastCompass, mostCompass)
	if err != nil {
		return inValue(v, "compass", &unit.Fault{What: fmt.Sprintf("%q is no longest radius of compasses for a class", strict.Shorten(text)), Hint: "from 60 mm to 300 mm; most school compasses reach 120 mm"})
	}
	t.Limits.Compass = l.MM()
	return nil
}

// pupils are a number, or names, each with what is the pupil's own.
func (t *wanted) pupils(v strict.Value) error {
	t.PupilsAt = v.Where()
	items, ok := v.Items()
	if !ok {
		n, err := v.Integer("pupils", 1, MaxPupils)
		t.Numbered(n)
		return hinting(err, fmt.Sprintf("write how many, from 1 to %d, or a list of names", MaxPupils))
	}
	switch {
	case len(items) == 0:
		return v.Fault("nobody is in the list of pupils", "pupils: 28, or a list of names")
	case len(items) > MaxPupils:
		return items[MaxPupils].Fault(fmt.Sprintf("more than %d pupils", MaxPupils), "make a job of each class")
	}
	for _, item := range items {
		p, err := pupil(item)
		if err == nil {
			err = t.add(p, item.Where())
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// Numbered makes a class of so many pupils without names.
func (t *Tasks) Numbered(n int) {
	for range n {
		t.Pupils = append(t.Pupils, task.Pupil{})
	}
}

var pupilKeys = []string{"name", "level", "demand"}

func pupil(v strict.Value) (p task.Pupil, err error) {
	if _, keys := v.Keys(); !keys {
		p.Name, err = v.Text("a pupil")
		return p, err
	}
	fields, err := v.Fields("the pupil", pupilKeys...)
	for _, f := range fields {
		switch {
		case err != nil:
		case f.Key == "name":
			p.Name, err = f.Value.Text("the pupil's name")
		case f.Key == "level":
			p.Level, err = levelOf(f.Value)
		default:
			p.Demand, err = demandOf(f.Value)
		}
	}
	if err == nil && p.Name == "" {
		err = v.Fault("the pupil has no name", "{name: Ada, level: 3}")
	}
	return p, err
}

// add takes a pupil into the class; the same name twice would be two sheets that nobody can
// tell apart.
func (t *Tasks) add(p task.Pupil, where string) error {
	if len([]rune(p.Name)) > MaxName {
		return &unit.Fault{Where: where, What: fmt.Sprintf("the pupil's name is longer than %d letters", MaxName), Hint: "shorten it to what fits a line"}
	}
	if i := slices.IndexFunc(t.Pupils, func(q task.Pupil) bool { return strings.EqualFold(q.Name, p.Name) }); i >= 0 && p.Name != "" {
		return &unit.Fault{Where: where, What: fmt.Sprintf("%q is in the class already: %s", strict.Shorten(p.Name), t.Places[i]), Hint: "tell the two apart by a letter or a number"}
	}
	if p.Demand == task.Stretch && p.Level == 0 {
		p.Level = task.Ones
	}
	t.Pupils, t.Places = append(t.Pupils, p), append(t.Places, where)
	return nil
}

// TakePupils puts a class list, read from a file, in the place of the job's own.
func (t *Tasks) TakePupils(file string, data []byte) error {
	if err := strict.CheckText(file, data); err != nil {
		return err
	}
	var class Tasks
	in := textOf(file, data)
	if err := in.separator(); err != nil {
		return err
	}
	place, err := in.classHead()
	if err != nil {
		return err
	}
	for {
		row, err := in.row()
		switch {
		case err != nil:
			return err
		case row == nil && len(class.Pupils) == 0:
			return in.fault(position{1, 1}, "the class list has no pupils", "a name in each line below the line that names the columns")
		case row == nil:
			t.Pupils, t.Places, t.PupilsAt = class.Pupils, class.Places, file
			return nil
		case len(class.Pupils) == MaxPupils:
			return in.fault(row[0].position, fmt.Sprintf("more than %d pupils", MaxPupils), "make a list of each class")
		}
		if err := class.addRow(in, row, place); err != nil {
			return err
		}
	}
}

// classHead says in which column each of pupilKeys stands, −1 where in none. Without a line
// that names the columns each line is a name.
func (t *text) classHead() (place []int, err error) {
	place = []int{-1, -1, -1}
	line, ok := t.firstLine()
	if !ok {
		return nil, t.fault(position{1, 1}, "the class list is empty", "begin with a line that names the columns: name,level,demand")
	}
	if t.comma == 0 {
		t.comma = ','
		if n := strings.Count(line, ";"); n > strings.Count(line, ",") {
			t.comma = ';'
		} else if strings.Contains(line, "\t") && !strings.Contains(line, ",") {
			t.comma = '\t'
		}
	}
	words := strings.Split(line, string(t.comma))
	if !slices.ContainsFunc(words, func(w string) bool { return columnName(w) == "name" }) {
		if len(words) > 1 {
			return nil, t.fault(t.position, "no column is called name", "name the columns in the first line: name,level,demand; or write one name a line")
		}
		return []int{0, -1, -1}, nil
	}
	head, err := t.row()
	if err != nil {
		return nil, err
	}
	for i, f := range head {
		k := slices.Index(pupilKeys, columnName(f.words))
		switch {
		case k < 0 && f.words != "":
			continue // other columns of a class list say nothing here
		case k >= 0 && place[k] >= 0:
			return nil, t.fault(f.position, fmt.Sprintf("two columns are called %s", pupilKeys[k]), "leave one of them out")
		case k >= 0:
			place[k] = i
		}
	}
	return place, nil
}

// addRow takes a line of a class list into the class.
func (t *Tasks) addRow(in *text, row []field, place []int) error {
	cell := func(k int) field {
		if i := place[k]; i >= 0 && i < len(row) {
			return row[i]
		}
		return field{position: row[0].position}
	}
	var p task.Pupil
	name, level, demand := cell(0), cell(1), cell(2)
	if p.Name = name.words; p.Name == "" {
		return in.fault(row[0].position, "the pupil has no name", "write it in the column name")
	}
	if level.words != "" {
		if n := strings.Index("123", level.words); n >= 0 && len(level.words) == 1 {
			p.Level = task.Level(n + 1)
		} else {
			return in.fault(level.position, fmt.Sprintf("%q is not a level", strict.Shorten(level.words)), "write 1, 2 or 3, or leave it empty")
		}
	}
	if demand.words != "" {
		i := slices.Index(demands(), strings.ToLower(demand.words))
		if i < 0 {
			return in.fault(demand.position, fmt.Sprintf("%q is not a demand", strict.Shorten(demand.words)), strict.Suggest(demand.words, demands()))
		}
		p.Demand = task.Demands()[i]
	}
	return t.add(p, in.at(name.position))
}
