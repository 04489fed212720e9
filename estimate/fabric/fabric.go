// Package fabric reckons how much of the old ship stays in her: by the number of
// members and by their volume, in each section of the bill and in all.
//
// In come the rows of members as they were taken off; out come, for every
// section, the members and the timber in the ship before the work, what of them
// is kept, renewed and removed, and the share kept. Only rows in the total count:
// what is carried as a risk, an option or a rate is not done yet. The rule, by
// Treatment:
//
//	retain, preserve, refasten, off and back   kept whole
//	part            kept in part: Length less Renewed length stays, the rest is renewed
//	renew           renewed; the old is taken to have had the finished sizes of the new
//	graving piece   its volume is renewed; the member it is let into counts by its own row
//	remove          removed
//
// A member is one of the Nr of its row, so that a run of planking entered as one
// is one. The volume before is Nr x Length x section, the volume renewed in part
// Nr x Renewed length x section, each rounded once for the row to the places of
// the job's unit of volume; kept is what is left between them, and sections add
// up rows. Shares go to a tenth of one per cent. A row without its sizes counts by
// number alone and is named as not sized; one that refastens and names no section
// at all is of bolts and not of members, and is named apart.
//
// A keel of 22.4 m, 280 x 330 mm, of which 3.6 m are renewed: before
// 22.4 x 0.28 x 0.33 = 2.070 m3, renewed 3.6 x 0.28 x 0.33 = 0.333 m3, kept
// 1.737 m3 or 83.9 %; by number one member, kept in part.
//
// Members that nobody entered are not known here, so that a share is one of the
// schedule and not of the ship. Nor is it known that a member is entered twice,
// but for planking: rows of one Side and Strake that have two frames or more in
// common are warned of. A row of work on members that have rows of their own, as
// of hood ends refastened beside their strakes, is to leave Sided and Moulded
// blank; it is then one of fastenings.
package fabric

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Fabric is the old fabric of the ship, as far as the schedule names it.
type Fabric struct {
	Unit       measure.Unit // of every volume
	Sections   []Section    // in the order of the job, those with members alone
	All        Count
	NotSized   []Row // counted by number, not by volume
	Fastenings []Row // refastened without a section: not counted
}

// Section is the fabric of one section.
type Section struct {
	Section, Title string
	Rows           []Row // by Ref
	Count
}

// Row is one row of members.
type Row struct {
	Member *job.Member
	Sized  bool
	Count
}

// Count is members by what becomes of them, and their volumes. Before is Kept,
// Renewed and Removed together, in numbers as in volume.
type Count struct {
	Members        int // in the ship before
	Whole, InPart  int // kept
	New, Gone      int // renewed, removed
	Before, Kept   decimal.Decimal
	Renewed, Taken decimal.Decimal // renewed, removed
}

// Any reports that something was counted.
func (c Count) Any() bool { return c.Members > 0 || !c.Before.IsZero() }

// Lost is how many members are not kept, renewed and removed together.
func (c Count) Lost() int { return c.New + c.Gone }

// ByNumber is the share of members kept whole, to a tenth of one per cent; false
// where there are none. Of what is kept in part the volume speaks.
func (c Count) ByNumber() (money.Percent, bool) {
	return share(decimal.New(int64(c.Whole), 0), decimal.New(int64(c.Members), 0))
}

// ByVolume is the share of timber kept, to a tenth of one per cent; false where
// nothing is sized.
func (c Count) ByVolume() (money.Percent, bool) { return share(c.Kept, c.Before) }

func share(part, whole decimal.Decimal) (money.Percent, bool) {
	if whole.Sign() <= 0 {
		return money.Percent{}, false
	}
	return money.NewPercent(part.Shift(2).DivRound(whole, 1)), true
}

func (c *Count) add(o Count) {
	c.Members += o.Members
	c.Whole += o.Whole
	c.InPart += o.InPart
	c.New += o.New
	c.Gone += o.Gone
	c.Before = c.Before.Add(o.Before)
	c.Kept = c.Kept.Add(o.Kept)
	c.Renewed = c.Renewed.Add(o.Renewed)
	c.Taken = c.Taken.Add(o.Taken)
}

// Reckon counts what is kept of the members in the total. Rows that takeoff found
// a problem with count as far as their sizes go. Planking that is counted twice is
// warned of.
func Reckon(j *job.Job, t takeoff.Takeoff) (Fabric, problem.List) {
	f := Fabric{Unit: j.VolumeUnit()}
	of := map[string][]Row{}
	for _, r := range t.Rows {
		if r.Member == nil || !r.Work.Carried.InTotal() {
			continue
		}
		m := r.Member
		if m.Treatment == job.Refasten && m.Sided <= 0 && m.Moulded <= 0 {
			f.Fastenings = append(f.Fastenings, Row{Member: m})
			continue
		}
		row := count(m, f.Unit)
		if !row.Sized {
			f.NotSized = append(f.NotSized, row)
		}
		of[rates.Key(m.Section)] = append(of[rates.Key(m.Section)], row)
	}
	for _, s := range j.Sections {
		section := Section{Section: s.Section, Title: s.Title, Rows: of[rates.Key(s.Section)]}
		for _, r := range section.Rows {
			section.add(r.Count)
		}
		if section.Any() {
			f.Sections = append(f.Sections, section)
			f.All.add(section.Count)
		}
	}
	return f, twice(f)
}

// count is what becomes of the members of one row.
func count(m *job.Member, u measure.Unit) Row {
	r := Row{Member: m}
	volume := func(along measure.Length) decimal.Decimal {
		v, sized := takeoff.Volume(m, along)
		r.Sized = sized
		return v.In(u, u.Places())
	}
	r.Before = volume(m.Length)
	switch m.Treatment {
	case job.Graving:
		r.Renewed = r.Before
		return r
	case job.Renew:
		r.New, r.Renewed = m.Nr, r.Before
	case job.Remove:
		r.Gone, r.Taken = m.Nr, r.Before
	case job.Part:
		if m.Renewed >= m.Length { // no old wood is left
			r.New, r.Renewed = m.Nr, r.Before
			break
		}
		r.InPart, r.Renewed = m.Nr, volume(m.Renewed)
	default:
		r.Whole = m.Nr
	}
	r.Members = m.Nr
	r.Kept = r.Before.Sub(r.Renewed).Sub(r.Taken)
	return r
}
