package words

import "fmt"

// Pages is what every page of a document bears beside its drawing: labels, no sentences.
type Pages interface {
	// HowToPrint is how the page is printed at its true size.
	HowToPrint() string
	// ForPrinter is the printer that the page is made for.
	ForPrinter(name string) string
	// Sheet is the number of a sheet among so many that are put together.
	Sheet(number string, of int) string
	// Number of the page in the document, of so many; of 0 where that is not said.
	Number(n, of int) string
	// Copy is which of so many copies of a template the page belongs to.
	Copy(n, of int) string
	// MeasureBar asks to measure a check bar of that length.
	MeasureBar(length string) string
	// LayHere is what becomes of the strip of the sheet below: where the edge of another
	// comes to lie.
	LayHere(over string) string
	// Cut is the line that the sheet on top is cut along.
	Cut() string
	// Step is what one step of the ticks beside a join is worth.
	Step(inches bool) string
}

// pages in English.
type pages struct{ voice Voice }

func (pages) HowToPrint() string { return "print at 100 %, actual size" }

func (pages) ForPrinter(name string) string { return "for printer " + name + ": wrong on any other" }

func (pages) Sheet(number string, of int) string { return fmt.Sprintf("sheet %s of %d", number, of) }

func (pages) Number(n, of int) string {
	if of == 0 {
		return fmt.Sprintf("page %d", n)
	}
	return fmt.Sprintf("page %d of %d", n, of)
}

func (pages) Copy(n, of int) string           { return fmt.Sprintf("copy %d of %d", n, of) }
func (pages) MeasureBar(length string) string { return length + ": measure this bar" }

func (pages) LayHere(over string) string { return "lay " + over + " here" }

func (pages) Cut() string { return "cut" }

func (pages) Step(inches bool) string {
	if inches {
		return "1 step 0.004"
	}
	return "1 step 0.1"
}
