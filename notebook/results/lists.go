package results

import (
	"bytes"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// List writes one of the journal's lists: dimensions, cutlist, rework, checks, ledger,
// history. wood says how the cut list buys.
func (r *Writer) List(w *bytes.Buffer, name string, wood Buying) {
	switch name {
	case "dimensions":
		r.dimensions(w)
	case "cutlist":
		r.cutlist(w, wood)
	case "rework":
		r.rework(w)
	case "checks":
		r.checks(w)
	case "ledger":
		r.ledger(w)
	case "history":
		r.history(w)
	}
	Cautions(w, CautionsOf(r.Session, name, r.AsOf))
}

// table is a table with a head; without rows it is the words for none.
type table struct {
	head []string
	rows [][]string // of HTML, the first cell of each its heading
	none string
	ids  []string // of the rows, where they are given
	// evident tables have cells that need no word before them where a narrow screen has
	// no room for the head; in the others each cell carries the word of its column.
	evident bool
}

func (t *table) write(w *bytes.Buffer) {
	if len(t.rows) == 0 {
		w.WriteString(`<p class="none">`)
		esc(w, t.none)
		w.WriteString(`</p>`)
		return
	}
	class := "blocks"
	if t.evident {
		class = "blocks evident"
	}
	w.WriteString(`<div class="wide" tabindex="0" role="group" aria-label="table"><table class="` + class + `"><thead><tr>`)
	cells := make([]string, len(t.head)) // how a cell of each column begins
	for i, h := range t.head {
		w.WriteString(`<th scope="col">` + text(h) + `</th>`)
		cells[i] = `<td>`
		if !t.evident {
			cells[i] = `<td data-word="` + text(h) + `">`
		}
	}
	w.WriteString(`</tr></thead><tbody>`)
	for k, row := range t.rows {
		w.WriteString(`<tr`)
		if k < len(t.ids) {
			w.WriteString(` id="`)
			esc(w, t.ids[k])
			w.WriteByte('"')
		}
		w.WriteByte('>')
		for i, c := range row {
			switch {
			case i == 0:
				w.WriteString(`<th scope="row">` + c + `</th>`)
			case c == "":
				w.WriteString(`<td></td>`)
			default:
				w.WriteString(cells[i] + c + `</td>`)
			}
		}
		w.WriteString(`</tr>`)
	}
	w.WriteString(`</tbody></table></div>`)
}

// inEntry names the day of an entry, as a link to it where the page knows its address;
// with a name, to the row that gives it.
func (r *Writer) inEntry(e kernel.EntryRef, name string) string {
	day := text(r.when(e))
	href := ""
	if r.Entry != nil {
		href = r.Entry(e.Key, name)
	}
	if href == "" || day == "" {
		return day
	}
	return `<a href="` + text(href) + `">` + day + `</a>`
}

func text(s string) string {
	var b bytes.Buffer
	esc(&b, s)
	return b.String()
}

// resultText is a result as text, escaped.
func (r *Writer) resultText(x *kernel.Result) string {
	switch {
	case x == nil:
		return "—"
	case x.OK():
		return text(r.Style.Text(x.Value))
	case x.Err != nil:
		return `<span class="wrong">` + text(x.Err.Message) + `</span>`
	}
	return `<span class="waits">waits for ` + text(strings.Join(x.Waits, ", ")) + `</span>`
}

// named is a value of a list, with the mark of its kind.
func (r *Writer) named(name, kind string, x *kernel.Result) string {
	if x == nil || !x.OK() || x.Value.Kind() == calc.Picture {
		return r.resultText(x)
	}
	var b bytes.Buffer
	o := &kernel.Outcome{Name: name, Kind: kind, Result: x}
	if x.Reading != nil {
		o.Ref = r.Session.RefOf(x)
	}
	t := r.Style.Text(x.Value)
	if len(x.Value.Items()) > 0 {
		t = countText(x.Value)
	}
	r.valueText(&b, o, t, false)
	return b.String()
}

func (r *Writer) dimensions(w *bytes.Buffer) {
	var rows [][]string
	var ids []string
	for _, d := range r.Session.Dimensions(r.AsOf) {
		if d.Cell || r.Public && d.Private {
			continue
		}
		also := ""
		if d.Result.OK() {
			also = text(r.Style.Echo(d.Result.Value))
		}
		if d.Sum != nil && d.Sum.OK() {
			also += ` <span class="how">the sum gives ` + text(r.Style.Text(d.Sum.Value)) + `</span>`
		}
		kind := text(d.Kind)
		if d.Readings > 1 && r.History != nil {
			kind = `<a href="` + text(r.History(d.Name)) + `">` + kind + `, ` + text(r.Style.Text(calc.Number(float64(d.Readings)))) + ` readings</a>`
		}
		since := text(r.when(d.Entry))
		if !d.Row {
			since = r.inEntry(d.Entry, d.Name)
		}
		if r.Marks {
			ids = append(ids, r.IDPrefix+"value-"+d.Name)
		}
		rows = append(rows, []string{text(calc.Words(d.Name)), r.named(d.Name, d.Kind, d.Result), also, kind, since, text(d.Note)})
	}
	t := table{head: []string{"value", "is", "also", "kind", "since", "note"}, rows: rows, none: "No value has been named yet.", ids: ids, evident: true}
	t.write(w)
}

func (r *Writer) rework(w *bytes.Buffer) {
	var rows [][]string
	for _, m := range r.Session.MadeList(r.AsOf) {
		if r.Public && m.Private {
			continue
		}
		for _, z := range m.Sizes {
			if z.Began == "right" && z.Words == "right" {
				continue // the change did not touch it
			}
			rows = append(rows, []string{text(Pieces(m, r.Style)), r.inEntry(m.Entry, ""), text(calc.Words(z.Name)), text(r.Style.Text(z.First)), text(r.Style.Text(z.Now)), text(r.began(z)), text(r.settledBy(m, z))})
		}
	}
	t := table{head: []string{"made before the change", "made", "size", "as made", "now", "made − now", "settled by"}, rows: rows, none: "Nothing that was made is off."}
	t.write(w)
}

// Pieces names what was made, with its number: 24 × rib.
func Pieces(m kernel.Made, style calc.Style) string {
	if m.Count == 0 {
		return calc.Words(m.Thing)
	}
	return style.Text(calc.Number(m.Count)) + " × " + calc.Words(m.Thing)
}

// began says what the change did to a size, in the style of the reader.
func (r *Writer) began(z kernel.MadeSize) string {
	if z.Began == "right" {
		return z.Began
	}
	return kernel.Words(calc.Of(z.First.V-z.Now.V, z.Now.D), r.Style)
}

// settledBy says what was done about a size that a change left off.
func (r *Writer) settledBy(m kernel.Made, z kernel.MadeSize) string {
	if m.Settled == nil {
		if z.Off {
			return "still to settle"
		}
		return "within what it may be"
	}
	if m.Count == 0 && m.Replaced > 0 {
		return "gone; others were made in place of them"
	}
	s := m.Settled
	state := s.How
	if z.Made.V != z.First.V && s.How != "replaced" && z.Words != "right" {
		state += " to " + r.Style.Text(z.Made) + ", " + r.offBy(z)
	}
	if s.Note != "" {
		state += ": " + s.Note
	}
	state += ", " + r.when(s.Entry)
	if z.Off {
		return "still to settle; " + state
	}
	return state
}

func (r *Writer) checks(w *bytes.Buffer) {
	var rows [][]string
	for _, k := range r.Session.Checks(r.AsOf) {
		if r.Public && k.Private {
			continue
		}
		sign, word := "✗ ", "does not hold"
		if k.Holds {
			sign, word = "✓ ", "holds"
		}
		if k.Result.Cautions != 0 {
			sign = ""
		}
		answer := text(sign + word)
		if !k.Result.OK() {
			answer = r.resultText(k.Result)
		}
		sides := ""
		if k.Left != nil && k.Left.OK() && k.Right.OK() {
			sides = r.sides(&k)
		}
		rows = append(rows, []string{text(strings.TrimSpace(strings.TrimPrefix(k.Text, "check"))), answer, text(sides), r.inEntry(k.Entry, ""), text(k.Note)})
	}
	t := table{head: []string{"check", "answer", "both sides", "since", "note"}, rows: rows, none: "No check has been written yet."}
	t.write(w)
}

func (r *Writer) ledger(w *bytes.Buffer) {
	l := r.Session.Ledger(r.AsOf)
	r.ledgerPicture(w, l)
	for _, part := range []struct {
		title, hide string
		money       bool
		totals      []kernel.Total
	}{{"Hours", "hours", false, l.Hours}, {"Money", "money", true, l.Money}} {
		if r.hides(part.hide) {
			continue
		}
		w.WriteString(`<h2>` + part.title + `</h2>`)
		var sums, rows [][]string
		for _, t := range part.totals {
			name := t.Subject
			if name == "" {
				name = "altogether"
			}
			sums = append(sums, []string{text(name), text(r.Style.Text(t.Amount))})
		}
		for _, p := range l.Postings {
			if p.Money == part.money && !(r.Public && p.Private) {
				rows = append(rows, []string{r.inEntry(p.Entry, ""), text(p.Subject), text(r.Style.Text(p.Amount)), text(r.Style.Text(p.Running)), text(p.Note)})
			}
		}
		t := table{head: []string{"subject", "sum"}, rows: sums, none: "Nothing has been entered yet.", evident: true}
		t.write(w)
		if len(rows) > 0 {
			t = table{head: []string{"day", "subject", "amount", "running", "note"}, rows: rows}
			t.write(w)
		}
	}
}

func (r *Writer) history(w *bytes.Buffer) {
	for _, h := range r.Session.Histories(r.AsOf) {
		w.WriteString(`<h2 id="history-`)
		esc(w, h.Name)
		w.WriteString(`">`)
		esc(w, calc.Words(h.Name))
		w.WriteString(`</h2>`)
		t := table{head: readingHead, rows: r.readings(h)}
		t.write(w)
	}
	if len(r.Session.Histories(r.AsOf)) == 0 {
		w.WriteString(`<p class="none">No value has had a second reading yet.</p>`)
	}
}

var readingHead = []string{"day", "kind", "reading", "until", "note"}

// readings are the rows of a value's history.
func (r *Writer) readings(h kernel.History) [][]string {
	var rows [][]string
	for _, x := range h.Readings {
		until := ""
		if x.Until != nil {
			until = r.when(*x.Until)
		}
		if x.Counts {
			until = "counts now"
		}
		rows = append(rows, []string{r.inEntry(x.Entry, ""), text(x.Kind), r.named(h.Name, x.Kind, x.Result), text(until), text(x.Note)})
	}
	return rows
}
