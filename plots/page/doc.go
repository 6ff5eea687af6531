// Package page writes a design review as one HTML page that needs nothing else:
// no network, no script, no font of the reader's. It computes nothing: a page
// is a list of sections, each a heading and blocks of finished words, numbers
// and figures.
//
//	p := page.Page{Title: "Fieldfare", Sections: []page.Section{...}}
//	err := p.Write(out)
//
// All text is escaped. The same page gives the same bytes at any time. Its
// content security policy lets it load nothing, and it prints with no figure
// and no row of a table cut by the end of a sheet.
package page
