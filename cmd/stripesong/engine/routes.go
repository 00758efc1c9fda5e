package engine

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net/url"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

// Status codes as RFC 9110 numbers them. They stand here, as the engine is built into a
// page too, where a package for HTTP would be a fifth of it.
const (
	ok            = 200
	badRequest    = 400
	notFound      = 404
	conflict      = 409
	unprocessable = 422
	failed        = 500
)

// Ask is what the page asks for.
type Ask struct {
	Method string // "GET" or "POST"
	Path   string // as in "/view"
	Query  url.Values
	Body   []byte // JSON, of a POST
}

// Answer is what the page gets, as HTTP has it.
type Answer struct {
	Status int
	Kind   string // the body's type, as in "application/json"
	Body   []byte
}

// Route is one thing the page may ask for.
type Route struct{ Method, Path string }

// Routes are all of them, in order.
func Routes() (all []Route) {
	for _, r := range routes {
		all = append(all, r.Route)
	}
	return all
}

type route struct {
	Route
	answer func(*Engine, Ask) Answer
}

var routes = []route{
	{Route{"GET", "/view"}, (*Engine).view},
	{Route{"GET", "/status"}, (*Engine).status},
	{Route{"GET", "/lists"}, func(*Engine, Ask) Answer {
		return written(ok, workbench.AllLists())
	}},
	{Route{"GET", "/wait"}, (*Engine).wait},
	{Route{"GET", "/file"}, (*Engine).file},
	{Route{"GET", "/files"}, (*Engine).files},
	{Route{"POST", "/stop"}, (*Engine).stop},
	{Route{"POST", "/do"}, working("", (*Engine).do)},
	{Route{"POST", "/give-up"}, working("", (*Engine).giveUp)},
	{Route{"POST", "/undo"}, working("", (*Engine).undo)},
	{Route{"POST", "/redo"}, working("", (*Engine).redo)},
	{Route{"POST", "/go"}, working("", (*Engine).goBack)},
	{Route{"POST", "/pin"}, working("", (*Engine).pin)},
	{Route{"POST", "/take"}, working("", (*Engine).take)},
	{Route{"POST", "/save"}, working("", (*Engine).save)},
	{Route{"POST", "/save-as"}, working("", (*Engine).saveAs)},
	{Route{"POST", "/reread"}, working("", (*Engine).reread)},
	{Route{"POST", "/left"}, working("", (*Engine).decide)},
	{Route{"POST", "/photo"}, (*Engine).photo},
	{Route{"POST", "/others"}, offering("looking for others", others)},
	{Route{"POST", "/ways"}, offering("looking for ways out", ways)},
	{Route{"POST", "/steps"}, offering("drawing the steps so far", steps)},
	{Route{"POST", "/publish"}, working("drawing sheets and pictures", (*Engine).publish)},
}

// Answer does what is asked for. It may be called while another call runs.
func (s *Engine) Answer(a Ask) Answer {
	for _, r := range routes {
		if r.Method == a.Method && r.Path == a.Path {
			return r.answer(s, a)
		}
	}
	return refused(notFound, "there is no such page")
}

// refused is an answer in a line of plain text.
func refused(status int, why string) Answer {
	return Answer{status, "text/plain; charset=utf-8", []byte(why + "\n")}
}

// request is what the page sends; which fields count depends on the path.
type request struct {
	Op    workbench.Op `json:"op"`
	Title string       `json:"title"`
	Over  bool         `json:"over"`

	Offer  int    `json:"offer"`  // what to take or to pin; 0 for the present version
	Pinned int    `json:"pinned"` // what to go back to or to let go of
	What   string `json:"what"`   // what a pin is called
	Back   int    `json:"back"`   // how many steps

	Strip  int    `json:"strip"` // others of what: see workbench.Asking
	Unlike bool   `json:"unlike"`
	Count  int    `json:"count"`
	Kind   string `json:"kind"`   // of rhythm; "" for any
	Bands  int    `json:"bands"`  // how many stripes or bands; 0 for any number
	Manner string `json:"manner"` // "bold", "calm" or "" for any
	Loose  bool   `json:"loose"`  // other colours too
	// the only ones that another set may have in its patterns; none for any
	Colours []string `json:"colours"`
	Code    string   `json:"code"` // ways out of what
	About   string   `json:"about"`

	// Edition is that of the view the page showed; a page that shows an older
	// one, in a second window, is told so instead of changing what it can't see.
	Edition int `json:"edition"`

	Job  int  `json:"job"`  // what to stop
	Left int  `json:"left"` // what to decide on
	Take bool `json:"take"` // to take it up, not to throw it away

	wrote *wrote // where saving says what it changed
}

// reply is what the page gets: the view, and what was done or why not.
type reply struct {
	View     *workbench.View `json:"view,omitempty"`
	Said     string          `json:"said"`
	Problems []problem       `json:"problems,omitempty"`
	Asks     *asks           `json:"asks,omitempty"`    // before it saves
	Busy     *busy           `json:"busy,omitempty"`    // what is being worked on
	Edition  int             `json:"edition,omitempty"` // with a status
	Saved    bool            `json:"saved,omitempty"`   // too
	Kept     kept            `json:"kept"`
	Left     []left          `json:"left"`            // with a view
	Wrote    *wrote          `json:"wrote,omitempty"` // what saving changed
	Offers   []offer         `json:"offers,omitempty"`
	Again    string          `json:"again,omitempty"` // too: what starts the program again
	// too: there is no file that saving writes to
	NoFile bool `json:"no_file,omitempty"`
}

type problem struct {
	Key  string `json:"key"`
	What string `json:"what"`
	Hint string `json:"hint"`
}

// working reads a request, has its work done, and writes the reply.
func working(what string,
	do func(*Engine, context.Context, *workbench.Bench, request) (string, error)) func(*Engine,
	Ask) Answer {
	return func(s *Engine, a Ask) Answer {
		q, err := read(a)
		if err != nil {
			return unread
		}
		q.wrote = &wrote{}
		said, err := s.inTurn(q, what,
			func(ctx context.Context, at *workbench.Bench, q request) (string, error) {
				return do(s, ctx, at, q)
			})
		status, answer := conclude(said, err)
		if q.wrote.Lines > 0 {
			answer.Wrote = q.wrote
		}
		return s.show(status, answer)
	}
}

var unread = refused(badRequest, "the request can't be read")

// read takes the JSON of a request.
func read(a Ask) (q request, err error) {
	d := json.NewDecoder(bytes.NewReader(a.Body))
	d.DisallowUnknownFields()
	return q, d.Decode(&q)
}

func (s *Engine) view(Ask) Answer { return s.show(ok, reply{}) }

// show writes a reply together with the view.
func (s *Engine) show(status int, answer reply) Answer {
	answer.Left, answer.NoFile = s.leftOver(), !s.storage.FromFile()
	s.mu.Lock()
	view := s.bench.View()
	answer.View, answer.Busy, answer.Kept, answer.Again = &view, s.busy(), s.kept, s.again
	s.mu.Unlock()
	return written(status, answer)
}

// current does the work of a request that speaks of the present edition.
func current(ctx context.Context, at *workbench.Bench, q request, do work) (string, error) {
	if q.Edition != 0 && q.Edition != at.Edition() {
		return "", brief.Problems{{What: "another window has changed the brief",
			Hint: "this one shows it now: look, and do it again"}}
	}
	return do(ctx, at, q)
}

func conclude(said string, err error) (int, reply) {
	var problems brief.Problems
	var q *question
	switch {
	case err == nil:
		return ok, reply{Said: said}
	case errors.As(err, &q):
		return conflict, reply{Said: q.Error(), Asks: q.asks()}
	case errors.As(err, &problems):
		a := reply{Said: screen.Short(problems[0].What)}
		for _, p := range problems[:min(len(problems), 5)] {
			a.Problems = append(a.Problems,
				problem{screen.Short(p.Key), screen.Short(p.What), screen.Short(p.Hint)})
		}
		return unprocessable, a
	case errors.Is(err, errStopped):
		return unprocessable, reply{Said: err.Error()}
	case errors.Is(err, context.Canceled):
		err = errors.New("the program is ending, and nothing was changed")
	}
	what := screen.Short(err.Error())
	return unprocessable, reply{Said: what, Problems: []problem{{What: what}}}
}

func written(status int, v any) Answer {
	text, err := json.Marshal(v)
	if err != nil {
		return refused(failed, "the answer can't be written")
	}
	return Answer{status, "application/json", text}
}

func (s *Engine) do(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	return at.Do(ctx, q.Op)
}

// giveUp takes a gesture back as if it had never been.
func (s *Engine) giveUp(_ context.Context, at *workbench.Bench, q request) (string, error) {
	if at.GiveUp(q.Op.Gesture) {
		return "nothing has changed", nil
	}
	return "", nil
}

func (s *Engine) undo(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	what, err := at.Undo(ctx)
	return prefixed("undone: ", what, "there is nothing to undo"), err
}

func (s *Engine) redo(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	what, err := at.Redo(ctx)
	return prefixed("done again: ", what, "there is nothing to do again"), err
}

func prefixed(prefix, what, otherwise string) string {
	if what == "" {
		return otherwise
	}
	return prefix + what
}

// goBack undoes many steps at once, or does them again.
func (s *Engine) goBack(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	what, err := at.Go(ctx, q.Back)
	return prefixed("back to before: ", what, "there is nothing to go back to"), err
}

// pin keeps the present version or an offer, or goes back to one, or lets go of it.
func (s *Engine) pin(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	switch {
	case q.Pinned != 0 && q.Take:
		return at.FromPin(ctx, q.Pinned)
	case q.Pinned != 0:
		at.Unpin(q.Pinned)
		return "not pinned any more", nil
	}
	var o *workbench.Offer
	if q.Offer != 0 {
		if o = s.find(q.Offer); o == nil {
			return "", gone()
		}
	}
	at.Pin(o, q.What)
	return "pinned: hold it against what you make of it", nil
}

func (s *Engine) save(_ context.Context, at *workbench.Bench, q request) (string, error) {
	text, was := at.Text(), at.LastSaved()
	name, before, err := s.storage.Save(text, at.Origin(), q.Over)
	var c *Conflict
	if errors.As(err, &c) {
		return "", &question{c, workbench.Lost(c.File, text)}
	}
	if err != nil {
		return "", err
	}
	at.MarkSaved(text)
	said := "saved in " + name
	if before != "" {
		said += "; the brief as it was: " + before
	}
	*q.wrote = newWrote(was, text)
	return said, nil
}

func (s *Engine) saveAs(_ context.Context, at *workbench.Bench, q request) (string, error) {
	text := at.Text()
	before := s.storage.FromFile()
	name, err := s.storage.SaveAs(q.Title, text)
	if err != nil {
		return "", err
	}
	if !before {
		at.MarkSaved(text) // there was nowhere else to save it
	}
	if !before && s.storage.FromFile() {
		at.Rename(s.storage.Called())
	}
	return "a copy is saved as " + name, nil
}

func (s *Engine) reread(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	text, origin, err := s.storage.Reread()
	if err != nil {
		return "", err
	}
	if err := at.Load(ctx, text, origin, "the file as it is now"); err != nil {
		return "", err
	}
	s.storage.Known(origin)
	at.MarkSaved(text)
	return "this is the file as it is now; undo brings your version back", nil
}

func (s *Engine) publish(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	folder, err := s.storage.Publish(ctx, at.Plan())
	said := "drawings and lists are in the folder " + folder
	if !at.Saved() {
		said += "; they show your work as it is here, which is not saved yet"
	}
	return said, err
}
