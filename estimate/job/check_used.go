package job

import "futtock/rates"

// table is a price table a job draws on.
type table int

const (
	trade table = iota
	material
	plant
	subcontract
	stockLine
	timber
	tables // how many there are
)

// names is keys, each once, in the order in which they first come.
type names struct {
	names []string
	seen  map[string]bool
}

func (n *names) add(name string) {
	if k := rates.Key(name); k != "" && !n.seen[k] {
		n.seen[k] = true
		n.names = append(n.names, name)
	}
}

func (n *names) has(name string) bool { return n.seen[rates.Key(name)] }

// used is what the job draws on of each price table. Rows that take timber and
// are bound to no stock line use any line of their timber, since which is
// bought is chosen later.
func (c *check) used() [tables]*names {
	var u [tables]*names
	for t := range u {
		u[t] = &names{seen: map[string]bool{}}
	}
	buildUps, rules := &names{seen: map[string]bool{}}, &names{seen: map[string]bool{}}
	for _, w := range c.job.Works() {
		buildUps.add(w.BuildUp)
		if !w.Hours.IsZero() {
			u[trade].add(w.Trade)
		}
	}
	for _, m := range c.job.Members {
		rules.add(m.Fastening)
		switch {
		case !m.Treatment.TakesTimber():
		case m.Stock != "":
			u[stockLine].add(m.Stock)
		default:
			u[timber].add(m.Timber)
		}
	}
	for _, name := range buildUps.names {
		for _, row := range c.buildUp(name) {
			switch row.Part {
			case rates.Task:
				if n, ok := c.book.Norm(row.Item, c.job.TenderDate); ok {
					u[trade].add(n.Trade)
				}
			case rates.MaterialPart:
				u[material].add(row.Item)
			case rates.PlantPart:
				u[plant].add(row.Item)
			case rates.WorkPart:
				u[subcontract].add(row.Item)
			}
		}
	}
	for _, f := range c.book.Fastenings {
		if rules.has(f.Rule) {
			u[material].add(f.Material)
		}
	}
	for _, p := range c.job.Preliminaries {
		u[plant].add(p.Plant)
		u[trade].add(p.Trade)
	}
	for _, d := range c.job.Dayworks {
		u[trade].add(d.Of)
	}
	return u
}
