package engine

import (
	"context"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
	"stripesong/sequence/workbench"
)

// offer is another version that is shown before it is taken.
type offer struct {
	ID     int              `json:"id"`   // 0 for an earlier step
	Back   int              `json:"back"` // of an earlier step, how many ago
	What   string           `json:"what"`
	Costs  []string         `json:"costs"`
	Sketch workbench.Sketch `json:"sketch"`
}

// offered is an offer that may still be taken.
type offered struct {
	id int
	*workbench.Offer
}

// mostOffered is how many offers can be taken; of more the oldest go.
const mostOffered = 60

// looking finds offers.
type looking func(context.Context, *workbench.Bench, request) (found, error)

// found is what there is to offer.
type found struct {
	offers []*workbench.Offer
	past   []workbench.Past
	said   string
}

func others(ctx context.Context, at *workbench.Bench, q request) (f found, err error) {
	f.offers, err = at.Others(ctx, workbench.Asking{
		Strip: q.Strip, Unlike: q.Unlike, Count: q.Count, Colours: q.Colours,
		Steering: q.steering()})
	if len(f.offers) == 0 {
		f.said = "nothing was found that can be told from it"
	}
	return f, err
}

// foremost is how many per cent of all count as bold, or as calm.
const foremost = 33

// steering is what the page says that others are to be.
func (q request) steering() (s plan.Steering) {
	if q.Kind != "" {
		s.Kinds = []string{q.Kind}
	}
	s.Fewest, s.Most, s.LetColoursGo = q.Bands, q.Bands, q.Loose
	switch q.Manner {
	case "bold":
		s.Bold = foremost
	case "calm":
		s.Calm = foremost
	}
	return s
}

func ways(ctx context.Context, at *workbench.Bench, q request) (f found, err error) {
	var nearest string
	f.offers, nearest, err = at.Ways(ctx, q.Code, q.About)
	if len(f.offers) == 0 {
		f.said = remedy.Told("", nearest)
	}
	return f, err
}

// shownSteps is how many steps are drawn.
const shownSteps = 12

func steps(ctx context.Context, at *workbench.Bench, _ request) (f found, err error) {
	f.past, err = at.Trail(ctx, shownSteps)
	return f, err
}

// offering answers with what was found. It changes nothing, and can be stopped.
func offering(what string, look looking) func(*Engine, Ask) Answer {
	return func(s *Engine, a Ask) Answer {
		q, err := read(a)
		if err != nil {
			return unread
		}
		var all []offer
		said, err := s.lookInTurn(q, what,
			func(ctx context.Context, at *workbench.Bench, q request) (string, error) {
				f, err := look(ctx, at, q)
				if err != nil {
					return "", err
				}
				all = s.number(at, f)
				return f.said, nil
			})
		status, answer := conclude(said, err)
		answer.Offers = all
		s.mu.Lock()
		defer s.mu.Unlock()
		answer.Busy, answer.Kept = s.busy(), s.kept
		return written(status, answer)
	}
}

// number keeps offers, to be taken by their numbers.
func (s *Engine) number(at *workbench.Bench, f found) []offer {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := []offer{}
	for _, o := range f.offers {
		s.offered++
		s.offers = append(s.offers, offered{s.offered, o})
		all = append(all, offer{ID: s.offered, What: o.What, Costs: o.Costs, Sketch: o.Sketch(at)})
	}
	s.offers = s.offers[max(0, len(s.offers)-mostOffered):]
	for _, p := range f.past {
		all = append(all, offer{Back: p.Back, What: p.What, Sketch: p.Sketch})
	}
	return all
}

// find is the offer of a number; nil where there is none any more.
func (s *Engine) find(id int) *workbench.Offer {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, o := range s.offers {
		if o.id == id {
			return o.Offer
		}
	}
	return nil
}

func (s *Engine) take(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	o := s.find(q.Offer)
	if o == nil {
		return "", gone()
	}
	return at.Take(ctx, o)
}

func gone() error {
	return brief.Problems{{What: "this is not offered any more", Hint: "ask for others again"}}
}
