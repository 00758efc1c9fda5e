package engine

import (
	"archive/zip"
	"bytes"
	"context"
	"path"
	"strings"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
	"stripesong/sequence/workbench"
)

// kinds are the types of the files a plan comes as, by their endings.
var kinds = map[string]string{
	".json": "application/json",
	".svg":  "image/svg+xml",
	".csv":  "text/csv; charset=utf-8",
	".html": "text/html; charset=utf-8",
	".png":  "image/png",
	".zip":  "application/zip",
}

// file answers with one file of the plan's folder as it would be written now, by its
// name, or with all of them in one, NAME.zip.
func (s *Engine) file(a Ask) Answer {
	name := a.Query.Get("name")
	write := one
	if path.Ext(name) == ".zip" {
		write = Zip
	}
	var body []byte
	_, err := s.lookInTurn(request{}, "drawing "+name,
		func(ctx context.Context, at *workbench.Bench, _ request) (said string, err error) {
			body, err = write(ctx, at.Plan(), name)
			return "", err
		})
	switch {
	case err != nil:
		return refused(unprocessable, screen.Short(err.Error()))
	case body == nil:
		return refused(notFound, "there is no such file")
	}
	return Answer{ok, kinds[path.Ext(name)], body}
}

// files answers with the names of the files the plan comes as.
func (s *Engine) files(Ask) Answer {
	s.mu.Lock()
	p := s.bench.Plan()
	s.mu.Unlock()
	names := []string{}
	for _, f := range folder.Files(p) {
		names = append(names, f.Name)
	}
	return written(ok, map[string]any{"files": names})
}

// one is a file by its name; nil where there is none.
func one(_ context.Context, p *plan.Plan, name string) ([]byte, error) {
	for _, f := range folder.Files(p) {
		if f.Name == name {
			var b bytes.Buffer
			err := f.Write(&b, p)
			return b.Bytes(), err
		}
	}
	return nil, nil
}

// Zip is a folder of that name with all files; the same bytes for the same plan, as
// no file has a time.
func Zip(ctx context.Context, p *plan.Plan, name string) ([]byte, error) {
	var b bytes.Buffer
	all := zip.NewWriter(&b)
	in := folder.Name(strings.TrimSuffix(name, ".zip"))
	for _, f := range folder.Files(p) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		to, err := all.Create(in + "/" + f.Name)
		if err != nil {
			return nil, err
		}
		if err := f.Write(to, p); err != nil {
			return nil, err
		}
	}
	err := all.Close()
	return b.Bytes(), err
}
