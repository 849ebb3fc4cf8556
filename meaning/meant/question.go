package meant

import (
	"cmp"
	"slices"
)

// Question is a size that would settle others if the user knew what was meant
// by it.
type Question struct {
	Size    string
	Answers []Answer // likeliest first
}

// Answer is one possible answer to a Question.
type Answer struct {
	Text    string
	P       float64
	Settles []Settled // other sizes that then have a meaning of probability 0.9 or more
}

// Settled is a size that an answer would settle.
type Settled struct {
	ID, Text string
}

// The search for a question is kept to the doubtful sizes and answers that can
// matter most.
const (
	mostAsked    = 2
	mostAnswers  = 2
	likelyAnswer = 0.1
)

// question tries, for the sizes in most doubt, what naming them would settle.
func (f *found) question(sizes []Size) *Question {
	var best *Question
	most := 0.0
	for _, i := range doubtful(sizes) {
		q := f.ask(i, sizes)
		if gain := q.gain(); gain > most {
			best, most = q, gain
		}
	}
	return best
}

// doubtful returns the sizes that naming would teach most about, the most
// evenly balanced first.
func doubtful(sizes []Size) []int {
	var list []int
	for i, s := range sizes {
		if !s.settled() && len(s.Candidates) > 1 && s.Candidates[1].P >= likelyAnswer {
			list = append(list, i)
		}
	}
	if others := slices.IndexFunc(sizes, func(s Size) bool { return !s.settled() }); others < 0 || len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Compare(sizes[b].Candidates[1].P, sizes[a].Candidates[1].P)
	})
	return list[:min(len(list), mostAsked)]
}

// settled reports whether a size has a meaning beyond doubt.
func (s *Size) settled() bool {
	return s.Decided || len(s.Candidates) > 0 && s.Candidates[0].P >= settledAt || s.NoRound >= settledAt
}

// ask works out what each likely answer about size i would settle.
func (f *found) ask(i int, sizes []Size) *Question {
	q := &Question{Size: sizes[i].ID}
	for _, c := range sizes[i].Candidates[:mostAnswers] {
		then := f.named(i, c)
		answer := Answer{Text: c.Text, P: c.P}
		for k := range sizes {
			if k == i || sizes[k].settled() {
				continue
			}
			o := then.opinion(k)
			if n, p := o.leader(); p >= settledAt {
				a := &then.job.asked[k]
				answer.Settles = append(answer.Settles, Settled{a.size.ID, a.text(a.value(n), o.part[n])})
			}
		}
		q.Answers = append(q.Answers, answer)
	}
	return q
}

// named returns what would be found if a candidate of size i were decided.
func (f *found) named(i int, c Candidate) *found {
	other := *f.job
	other.asked, other.blocks = slices.Clone(f.job.asked), slices.Clone(f.job.blocks)
	a := &other.asked[i]
	a.decided, a.values = true, []value{a.value(nearest(c.Value))}
	b := other.block[i]
	other.blocks[b] = other.newBlock(other.blocks[b].members)
	return f.again(&other, b)
}

// gain returns how many sizes the answers settle, on average.
func (q *Question) gain() float64 {
	sum := 0.0
	for _, a := range q.Answers {
		sum += a.P * float64(len(a.Settles))
	}
	return sum
}
