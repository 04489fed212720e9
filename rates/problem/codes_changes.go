package problem

// The codes of reconciling two issues of a job.
const (
	IssueCurrency Code = "issue-currency"
	IssueUnlike   Code = "issue-unlike"
)

func changes() []Facts {
	return []Facts{
		{IssueCurrency, Error,
			"Two issues of a job are in different money, so that no difference can be taken of their totals.",
			`Job: Currency "EUR", where the old issue has "GBP"`,
			"Bring both issues into one currency, or compare other workbooks."},
		{IssueUnlike, Warning,
			"Two workbooks that are reconciled as issues of one job name different vessels or tender references.",
			`Job: Tender reference "SK-2026-5", where the old issue has "SK-2026-4"`,
			"See that both workbooks are those meant; the old issue is named first."},
	}
}
