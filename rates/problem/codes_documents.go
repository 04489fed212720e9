package problem

// The codes of what is found when the documents are to be written.
const (
	ReferenceTwice Code = "reference-shared"
)

func documents() []Facts {
	return []Facts{
		{ReferenceTwice, Error,
			"Two workbooks priced in one call bear one tender reference, so that the documents of one would be written over those of the other.",
			`Job: Tender reference "SK-2026-4" in both workbooks`,
			"Give each job a reference of its own, or price them one at a time into folders of their own."},
	}
}
