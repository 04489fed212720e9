package sheets

import (
	"cmp"

	"futtock/estimate/price"
	"futtock/rates"
	"futtock/templates/grid"
)

// Columns of the materials to order.
const (
	matName = iota + 1
	matText
	matQuantity
	matUnit
	matPack
	matPacks
)

// materialOrder lays out the materials of the work in the total by supplier,
// each with the quantity that all items take of it and the whole packs that
// hold it; and below them, not printed, the rows that take it.
func (w *working) materialOrder() {
	all := w.Priced.Materials
	if len(all) == 0 {
		return
	}
	p := w.page(materialSheet, "Materials to order", "For the work in the total, in whole packs. Quantities follow the make-up; the bill bears what is taken, not the rest of a pack.",
		34, 60, 13, 8, 11, 13)
	head := p.add(heads("Material", "Description", ">Quantity", "=Unit", ">Pack of", ">Whole packs")...)
	p.repeat(head, head)
	supplier := func(m price.Ordered) string { return cmp.Or(m.Material.Supplier, nobody) }
	rows := make([]int, len(all))
	for i := 0; i < len(all); {
		name := supplier(all[i])
		p.add(append([]grid.Cell{words(name, band)}, blanks(matPacks-1, band)...)...)
		for ; i < len(all) && rates.Same(supplier(all[i]), name); i++ {
			rows[i] = p.add(words(all[i].Material.Material, wrapped), words(all[i].Material.Description, wrapped))
		}
		p.gap()
	}
	p.Print.Area = "$A$1:$F$" + itoa(p.next()-2)
	p.add(heads("Taken of a material", "By row", ">Quantity", "=Unit", "", "")...)
	for i, m := range all {
		from := p.next()
		for _, a := range m.Asked {
			c := w.Priced.Items[a.Item].Costs[a.Cost]
			place := w.quantityOf[costKey{a.Item, a.Cost}]
			ref := words(c.Ref, jump)
			ref.Link = place
			p.add(words(c.Name, wrapped), ref, live(place, c.Quantity, asFine(c.Quantity, 3)), unitCell(c.Unit))
		}
		p.fold(from, p.next()-1, 1)
		w.packs(p, rows[i], m, from)
	}
}

// packs puts the figures of a material into its row: the sum of the rows that
// take it, from one on to the last there is, and the packs.
func (w *working) packs(p *page, row int, m price.Ordered, from int) {
	// The inner rounding takes off the noise of binary fractions.
	p.put(matQuantity, row, live("ROUND("+sumOf(matQuantity, from, p.next()-1)+",3)", m.Quantity, asFine(m.Quantity, 3)))
	p.put(matUnit, row, unitCell(m.Material.Unit))
	if m.Material.Pack.Sign() > 0 {
		p.put(matPack, row, figure(m.Material.Pack, asFine(m.Material.Pack, 3)))
		p.put(matPacks, row, live("ROUNDUP(ROUND("+at(matQuantity, row)+"/"+at(matPack, row)+",9),0)", m.Packs, countFormat))
	}
}
