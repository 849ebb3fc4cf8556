module oddleg

go 1.26

require (
	github.com/alecthomas/kong v1.16.0
	github.com/goccy/go-yaml v1.19.2
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require (
	codeberg.org/go-fonts/dejavu v0.4.0 // indirect
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
)

require (
	github.com/rogpeppe/go-internal v1.16.0
	golang.org/x/sys v0.30.0 // indirect
	golang.org/x/tools v0.30.0 // indirect
)
