package price_test

import (
	"testing"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

// Two covering boards take 4.813 kg of oakum each (12.5 m x 0.35 kg/m and 10 %),
// 9.626 kg together: five packs of 2 kg. A board that may be wanted takes none
// of the order, nor does a sum of money for materials.
func TestMaterialsAreOrderedForTheWorkInTheTotal(t *testing.T) {
	for _, c := range []struct{ name, pack, packs string }{
		{"packs are whole", "2", "5"},
		{"what fills a pack takes no more", "4.813", "2"},
		{"a pack without end in decimals", "3", "4"},
		{"not packed", "0", "0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			b.Materials[0].Pack, b.Materials[0].Supplier = dec(c.pack), "Chandler"
			row := func(ref string, carried job.Carried) takeoff.Row {
				r := member(ref)
				r.Work.BuildUp, r.Work.Carried = "plank", carried
				r.Member.Work = r.Work
				return r
			}
			money := item(job.Item{Work: job.Work{At: cell("Other work", 2), Ref: "Z1"}, Description: "oakum", Cost: quoted("50"), CostKind: rates.OfMaterials, CostAt: cell("Other work", 9)})
			rows := []takeoff.Row{row("A1", job.Measured), row("A2", job.Measured), row("A3", job.Option), money}
			p, _ := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
			if len(p.Materials) != 1 {
				t.Fatalf("%d materials to order, want one: %+v", len(p.Materials), p.Materials)
			}
			m := p.Materials[0]
			equal(t, "material", m.Material.Material, "oakum")
			equal(t, "quantity", m.Quantity.String(), "9.626")
			equal(t, "packs", m.Packs.String(), c.packs)
			var refs []string
			for _, a := range m.Asked {
				refs = append(refs, p.Items[a.Item].Costs[a.Cost].Ref)
			}
			equal(t, "asked by", refs, []string{"A1", "A2"})
		})
	}
}

// Materials stand by supplier, then by name, and those of no supplier last.
func TestMaterialsStandBySupplier(t *testing.T) {
	j, b := yard()
	b.Materials = append(b.Materials, rates.Material{At: cell("Materials", 4), Material: "bung", Unit: "nr", Price: quoted("0.1"), Supplier: "Turner"})
	b.Materials[1].Supplier = "Turner"
	for _, name := range []string{"7 in spike", "bung"} {
		b.BuildUps = append(b.BuildUps, rates.BuildUp{At: cell("Build-ups", 9), Name: "plank", Part: rates.MaterialPart, Item: name, By: rates.ByNr, Quantity: dec("10")})
	}
	r := member("A1")
	r.Work.BuildUp, r.Work.Carried = "plank", job.Measured
	r.Member.Work = r.Work
	p, _ := price.Price(j, b, takeoff.Takeoff{Rows: []takeoff.Row{r}}, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	var names []string
	for _, m := range p.Materials {
		names = append(names, m.Material.Material)
	}
	equal(t, "order", names, []string{"7 in spike", "bung", "oakum"})
}
