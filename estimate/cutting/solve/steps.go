package solve

// Effort is how much work to spend on one instance, in counted steps and never by the clock, so that the same instance gets the same answer
// everywhere. A step is about one addition in an inner loop.
type Effort int64

const (
	// Usual is spent on one group of timber in a price run: some 50 ms where a step takes a nanosecond.
	Usual Effort = 30_000_000
	// Thorough is for proving a single hard purchase: some 2 s.
	Thorough Effort = 1_200_000_000
)

// Steps counts the work done.
type Steps struct {
	// Done is the work so far, Most the work allowed.
	Done, Most int64
}

// Add counts n steps.
func (s *Steps) Add(n int) { s.Done += int64(n) }

// Spent tells that the work allowed is done.
func (s *Steps) Spent() bool { return s.Done >= s.Most }
