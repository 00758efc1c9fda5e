module stripesong

go 1.26.8

require (
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/lucasb-eyer/go-colorful v1.4.1
	github.com/pelletier/go-toml/v2 v2.4.3
	github.com/rivo/uniseg v0.4.7
	github.com/rogpeppe/go-internal v1.16.0
	github.com/spf13/pflag v1.1.0
	github.com/stretchr/testify v1.12.1
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
