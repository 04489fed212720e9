package explain

import (
	"fmt"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// summary is the letters of the summary, VAT and the totals.
func (m maker) summary() []subject {
	of := func(ref, also, title string, a money.Amount, how string, under func() []Line) subject {
		return subject{ref, also, func() Line {
			out := words(title, "", origin.Cell{})
			out.Under = []Line{m.money("Total", a, how, origin.Cell{}, under()...)}
			return out
		}}
	}
	b := m.Bill
	return []subject{
		of("A", "measured work", "A, measured work", b.Items, Added, m.allSections),
		of("B", "preliminaries", "B, preliminaries", b.Prelims, Added, func() []Line { return m.billLines(b.Preliminaries) }),
		of("C", "sums and dayworks", "C, sums and dayworks", b.SumsDayworks, Added, m.allSums),
		{"D", "contingency", m.contingency},
		{"E", "price rises", m.rises},
		{"VAT", "", m.vat},
		of("net", "net total", "Net total", b.Net, Added, m.letters),
		of("total", "", "Total of the tender", b.Total, Added, func() []Line {
			return []Line{
				m.money("Net total", b.Net, Added, origin.Cell{}, m.letters()...),
				m.money("VAT", b.VATTotal, Added, origin.Cell{}, m.taxes(b.VAT)...),
			}
		}),
	}
}

func (m maker) letters() []Line {
	b := m.Bill
	return []Line{
		m.money("A, measured work", b.Items, "sections added up; explain A", origin.Cell{}),
		m.money("B, preliminaries", b.Prelims, "lines added up; explain B", origin.Cell{}),
		m.money("C, sums and dayworks", b.SumsDayworks, "lines added up; explain C", origin.Cell{}),
		m.money("D, contingency", b.Held, "explain D", origin.Cell{}),
		m.money("E, price rises", b.Rises, "explain E", origin.Cell{}),
	}
}

func (m maker) allSections() []Line {
	var out []Line
	for _, s := range m.Bill.Sections {
		out = append(out, m.money(s.Section+", "+s.Title, s.Total, "lines added up; explain "+s.Section, origin.Cell{}))
	}
	return out
}

// section is one section of the bill.
func (m maker) section(s bill.Section) Line {
	var in, out []bill.Line
	for _, l := range s.Lines {
		if l.Carried.InTotal() {
			in = append(in, l)
		} else {
			out = append(out, l)
		}
	}
	j, _ := m.Job.Section(s.Section)
	line := words("Section "+s.Section, s.Title, j.At)
	line.Under = []Line{m.money("Total", s.Total, Added, origin.Cell{}, m.billLines(in)...)}
	line.Under = append(line.Under, heading("Not in the total", m.billLines(out))...)
	return line
}

// billLines is lines as the bill prints them.
func (m maker) billLines(lines []bill.Line) []Line {
	var out []Line
	for _, l := range lines {
		n := m.money(joined("  ", l.Ref, l.Description), l.Amount, fmt.Sprintf("%s %s x %s", billed(l.Quantity, l.Unit), l.Unit, l.Rate.Grouped()), origin.Cell{})
		if !l.Carried.InTotal() {
			n.How = string(l.Carried) + ": " + n.How
		}
		if l.Carried == job.RateOnly {
			n.Value, n.Unit = "", ""
		}
		out = append(out, n)
	}
	return out
}

func (m maker) allSums() []Line {
	var out []Line
	for _, s := range m.Bill.Sums {
		out = append(out, m.money(s.Ref+"  "+s.Description, s.Total, sumOf(s.Amount, s.ProfitSum, s.Attendance)+", "+string(s.Kind), origin.Cell{}))
	}
	for _, d := range m.Priced.Dayworks {
		out = append(out, m.money("Daywork, "+d.Row.Of, d.Total, dayworkWords(d)+", an allowance", d.Row.At))
	}
	return out
}

// contingency is D by its parts.
func (m maker) contingency() Line {
	c := m.Contingency
	out := words("D, contingency", "", m.Job.Cell("Contingency %"))
	var under []Line
	part := func(label string, on money.Amount, percent money.Percent, a money.Amount, at origin.Cell) {
		under = append(under, m.money(label, a, fmt.Sprintf("%s of %s", percent, on.Grouped()), at))
	}
	for _, s := range c.Sections {
		j, _ := m.Job.Section(s.Section)
		at := origin.Cell{} // the Job's, which stands at the head
		if j.OwnRate {
			at = m.Job.Under(j.At, "Contingency %")
		}
		part("Section "+joined(", ", j.Section, j.Title), s.On, s.Percent, s.Amount, at)
	}
	if m.Job.ContingencyOn == job.OnItemsPrel {
		p := c.Preliminaries
		part("Preliminaries", p.On, p.Percent, p.Amount, origin.Cell{})
	}
	for _, r := range c.Rows {
		under = append(under, m.money(joined("  ", r.Ref, r.Description), r.Held, fmt.Sprintf("may be wanted: chance %s of %s", r.Chance, r.Amount.Grouped()), origin.Cell{}))
	}
	out.Under = []Line{m.money("Total", c.Total, Added, origin.Cell{}, under...)}
	if c.Simulation != nil {
		out = words("D, contingency", "simulated", m.Job.Cell("Contingency by"), m.simulated(c.Simulation)...)
	}
	if m.Job.ContingencyShown == job.WithinRates {
		var shares []Line
		for _, r := range m.Bill.Reconciled {
			if !r.Share.IsZero() {
				shares = append(shares, m.money(r.Ref, r.Share, "in its rate", origin.Cell{}))
			}
		}
		out.Under = append(out.Under, m.money("Shown as D in the bill", m.Bill.Held, "nothing: it stands within the rates, by amount", m.Job.Cell("Contingency shown"), shares...))
	}
	return out
}

// rises is E.
func (m maker) rises() Line {
	b := m.Bill
	out := words("E, price rises", "", m.Job.Cell("Price rises % a year"))
	if m.Job.PriceRises.IsZero() {
		out.Under = []Line{m.money("Total", b.Rises, "no rises are asked", origin.Cell{})}
		return out
	}
	out.Under = []Line{m.money("Total", b.Rises, fmt.Sprintf("(A %s + B %s + D %s) x (%s - 1)", b.Items.Grouped(), b.Prelims.Grouped(), b.Held.Grouped(), b.RiseFactor.StringFixed(6)), origin.Cell{},
		Line{Label: "Factor", Value: b.RiseFactor.StringFixed(6), How: fmt.Sprintf("(1 + %s) to the power of (%s days / 365.25)", m.Job.PriceRises, number(b.RiseDays)), At: m.Job.Cell("Price rises % a year")},
		Line{Label: "Days", Value: b.RiseDays.String(), Unit: string(measure.Days), At: m.Job.Cell("Start on site"),
			How: fmt.Sprintf("from the tender date, %s, to the start on site, %s, and half of %s weeks", dayWords(m.Job.TenderDate), dayWords(m.Job.Start), m.Programme.Weeks)})}
	return out
}

// vat is VAT by code, and what each code is borne by.
func (m maker) vat() Line {
	out := words("VAT", "by code, on the net of the lines that bear it, rounded once to the "+roundedWords(m.Job.VATRounding), m.Job.Cell("VAT rounding"))
	out.Under = []Line{m.money("VAT", m.Bill.VATTotal, Added, origin.Cell{}, m.taxes(m.Bill.VAT)...)}
	for _, t := range m.Bill.VAT {
		out.Under = append(out.Under, m.money("Net of code "+t.Code, t.Net, Added, origin.Cell{}, m.bearing(t.Code)...))
	}
	if o := m.Bill.Otherwise; o != nil {
		out.Under = append(out.Under, m.money("Total if the vessel did not qualify", o.Total, Added, origin.Cell{},
			append([]Line{m.money("Net total", m.Bill.Net, "as it is", origin.Cell{})}, m.taxes(o.VAT)...)...))
	}
	return out
}

// roundedWords is how tax comes to two places.
func roundedWords(r job.Rounding) string {
	if r == job.Down {
		return "hundredth below"
	}
	return "nearest hundredth"
}

func (m maker) taxes(taxes []bill.Tax) []Line {
	var out []Line
	for _, t := range taxes {
		row, _ := m.Book.Tax(t.Code, m.Job.TenderDate)
		of := fmt.Sprintf("%s of %s", t.Rate, t.Net.Grouped())
		if m.Job.VATRounding == job.Down {
			of += ", rounded down"
		}
		out = append(out, m.money("VAT "+t.Code, t.VAT, joined("; ", of, t.Meaning, inForce(row.From)), m.Job.Under(row.At, "Rate %")))
	}
	return out
}

// bearing is every line of the bill that bears a code.
func (m maker) bearing(code string) []Line {
	var out []Line
	put := func(ref, text, its string, a money.Amount) {
		if rates.Same(code, its) && !a.IsZero() {
			out = append(out, m.money(joined("  ", ref, text), a, "", origin.Cell{}))
		}
	}
	b := m.Bill
	for _, s := range b.Sections {
		for _, l := range s.Lines {
			if l.Carried.InTotal() {
				put(l.Ref, l.Description, l.VAT, l.Amount)
			}
		}
	}
	for _, l := range b.Preliminaries {
		put(l.Ref, l.Description, l.VAT, l.Amount)
	}
	for _, s := range b.Sums {
		put(s.Ref, s.Description, s.VAT, s.Total)
	}
	for _, d := range b.Dayworks {
		put("", "Daywork, "+d.Of, d.VAT, d.Total)
	}
	put("", "D, contingency", m.Job.VATCode, b.Held)
	put("", "E, price rises", m.Job.VATCode, b.Rises)
	return out
}

// sumOf is amounts added up in words, those of nothing left out but the first.
func sumOf(amounts ...money.Amount) string {
	parts := []string{amounts[0].Grouped()}
	for _, a := range amounts[1:] {
		if !a.IsZero() {
			parts = append(parts, a.Grouped())
		}
	}
	return strings.Join(parts, " + ")
}
