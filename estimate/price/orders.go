package price

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates"
)

// Ordered is a material to be ordered for the work in the total: what build-ups
// and fastening rules of all items take of it.
type Ordered struct {
	Material rates.Material
	Asked    []Asker         // by item, then as its costs stand
	Quantity decimal.Decimal // in the material's unit, to 0.001
	Packs    decimal.Decimal // whole packs that hold Quantity; nil where it is not packed
}

// Asker is one cost line that takes of a material: its item and the line, both by place.
type Asker struct{ Item, Cost int }

// ordered is the materials of the items in the total, by supplier, then by
// name; those of no supplier stand last. 250 spikes in packs of 100 are 3 packs.
func (p *pricing) ordered(items []Item) []Ordered {
	var out []Ordered
	place := map[string]int{}
	for i, item := range items {
		if !item.Carried.InTotal() {
			continue
		}
		for k, c := range item.Costs {
			// A sum that a row gives itself is of the kind too; its rate is of no row of Materials.
			if c.Kind != rates.OfMaterials {
				continue
			}
			m, ok := p.materials.get(c.Name)
			if !ok || m.At != c.RateAt {
				continue
			}
			at, seen := place[rates.Key(m.Material)]
			if !seen {
				at = len(out)
				place[rates.Key(m.Material)] = at
				out = append(out, Ordered{Material: m})
			}
			out[at].Asked = append(out[at].Asked, Asker{i, k})
			out[at].Quantity = out[at].Quantity.Add(c.Quantity)
		}
	}
	for i := range out {
		out[i].Packs = packs(out[i].Quantity, out[i].Material.Pack)
	}
	slices.SortStableFunc(out, func(a, b Ordered) int {
		x, y := a.Material, b.Material
		return cmp.Or(last(x.Supplier)-last(y.Supplier), cmp.Compare(rates.Key(x.Supplier), rates.Key(y.Supplier)),
			cmp.Compare(rates.Key(x.Material), rates.Key(y.Material)))
	})
	return out
}

// last puts a blank name behind all others.
func last(name string) int {
	if name == "" {
		return 1
	}
	return 0
}

// packs is the whole packs that hold a quantity, reckoned without a division
// that does not end.
func packs(quantity, pack decimal.Decimal) decimal.Decimal {
	if pack.Sign() <= 0 {
		return decimal.Decimal{}
	}
	n, rest := quantity.QuoRem(pack, 0)
	if rest.Sign() > 0 {
		n = n.Add(one)
	}
	return n
}
