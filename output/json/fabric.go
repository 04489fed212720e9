package json

import (
	"futtock/estimate/fabric"
	"futtock/rates/money"
)

// Fabric is the old fabric kept, by number of members and by volume; a share is
// null where there is nothing to share. NotSized and Fastenings name the rows
// that count by number alone, and those that do not count.
type Fabric struct {
	Unit       string          `json:"unit"`
	Sections   []FabricSection `json:"sections"`
	All        Kept            `json:"all"`
	NotSized   []string        `json:"not_sized,omitempty"`
	Fastenings []string        `json:"fastenings,omitempty"`
}

// FabricSection is the fabric of one section.
type FabricSection struct {
	Section string `json:"section"`
	Title   string `json:"title"`
	Kept
}

// Kept is members and volumes before the work, and what becomes of them.
type Kept struct {
	Members       int            `json:"members"`
	Whole         int            `json:"kept_whole"`
	InPart        int            `json:"kept_in_part"`
	Renewed       int            `json:"renewed"`
	Removed       int            `json:"removed"`
	ByNumber      *money.Percent `json:"kept_whole_percent"`
	Volume        string         `json:"volume"`
	KeptVolume    string         `json:"volume_kept"`
	RenewedVolume string         `json:"volume_renewed"`
	RemovedVolume string         `json:"volume_removed"`
	ByVolume      *money.Percent `json:"volume_kept_percent"`
}

func fabricKept(f fabric.Fabric) *Fabric {
	if !f.All.Any() {
		return nil
	}
	kept := func(c fabric.Count) Kept {
		places := f.Unit.Places()
		k := Kept{Members: c.Members, Whole: c.Whole, InPart: c.InPart, Renewed: c.New, Removed: c.Gone, Volume: c.Before.StringFixed(places),
			KeptVolume: c.Kept.StringFixed(places), RenewedVolume: c.Renewed.StringFixed(places), RemovedVolume: c.Taken.StringFixed(places)}
		if p, ok := c.ByNumber(); ok {
			k.ByNumber = &p
		}
		if p, ok := c.ByVolume(); ok {
			k.ByVolume = &p
		}
		return k
	}
	out := &Fabric{Unit: string(f.Unit), All: kept(f.All)}
	for _, s := range f.Sections {
		out.Sections = append(out.Sections, FabricSection{s.Section, s.Title, kept(s.Count)})
	}
	for _, r := range f.NotSized {
		out.NotSized = append(out.NotSized, r.Member.Ref)
	}
	for _, r := range f.Fastenings {
		out.Fastenings = append(out.Fastenings, r.Member.Ref)
	}
	return out
}
