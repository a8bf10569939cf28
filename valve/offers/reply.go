package offers

// Reply is what a maker writes beside the data of the valve. Empty texts are gaps.
type Reply struct {
	Name      string // of the offer in this evaluation
	Maker     string
	Model     string
	Reference string // of the letter or quotation
	Date      string
	Delivery  string // in the maker's words, e.g. 14 weeks
	Note      string
	Price     *float64 // purchase of one valve, in the currency of the evaluation; nil: not said
}

// Word is the answer to one limit.
type Word uint8

// The answers, from the best to the worst.
const (
	Meets Word = iota
	Narrowly
	Open // cannot be judged
	Fails
)

// String is the answer in words.
func (w Word) String() string {
	return [...]string{"meets", "meets narrowly", "cannot be judged", "fails"}[w]
}
