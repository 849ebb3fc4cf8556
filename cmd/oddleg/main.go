// Command oddleg works out the sizes of a part that has no drawing from the
// odd readings that can be taken round it.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"
)

// The exit statuses.
const (
	done       = 0
	broken     = 1 // anything but the user's input
	wrongInput = 2
)

// commands are the verbs.
type commands struct {
	Sizes       sizesCommand       `cmd:"" help:"Work out sizes from the readings of a job."`
	Next        nextCommand        `cmd:"" help:"Say which readings to take next, best first."`
	Expect      expectCommand      `cmd:"" help:"Say what to expect of readings that are only planned."`
	Methods     methodsCommand     `cmd:"" help:"List the ways of taking a reading, or explain one."`
	Thread      threadCommand      `cmd:"" help:"Say which thread a worn one was, and what to cut it by."`
	Gear        gearCommand        `cmd:"" help:"Say which module or diametral pitch a gear has."`
	Taper       taperCommand       `cmd:"" help:"Say which taper it is, and where its gauge line sits."`
	Fit         fitCommand         `cmd:"" help:"Say what to make a part to, so that it goes together and holds."`
	Limits      limitsCommand      `cmd:"" help:"Give the limits of a size with a tolerance class or a fit."`
	Material    materialCommand    `cmd:"" help:"Say how strong a material is, what runs against it and what not to do to it."`
	ChangeGears changeGearsCommand `cmd:"" help:"Find the change gears for a thread or a feed."`
	Index       indexCommand       `cmd:"" help:"Say how to divide a circle on a rotary table or a dividing head."`
	Setup       setupCommand       `cmd:"" help:"Say how to set up for a part: how to hold it, where to cut, in what order."`
	Check       checkCommand       `cmd:"" help:"Say how to read a finished part, and whether it is right."`
	Speeds      speedsCommand      `cmd:"" help:"Say at what speed to start cutting."`
	Tap         tapCommand         `cmd:"" help:"Say what to drill for a tap, and how to cut the thread on the lathe."`
	Draw        drawCommand        `cmd:"" help:"Draw the part of a job, as a drawing or a solid."`
	Upkeep      upkeepCommand      `cmd:"" help:"Say how far slides and screws have worn, how true the machine stands, and what to do."`
	Sheet       sheetCommand       `cmd:"" help:"Put a job on paper, to be read at the bench."`
	Keep        keepCommand        `cmd:"" help:"Save a job in the shop's record; every save is kept for ever."`
	History     historyCommand     `cmd:"" help:"List the revisions of a job, give one out or take one back."`
	Find        findCommand        `cmd:"" help:"Search the record by machine, part, size, thread or any word."`
	Shelf       shelfCommand       `cmd:"" help:"Record parts made, fitted and on the shelf, and list the spares."`
	Kit         kitCommand         `cmd:"" help:"Look after the shop's own instruments, gauge pieces and machines."`
	Away        awayCommand        `cmd:"" help:"Put a job away, out of the lists, or bring it back; nothing of it is lost."`
	Label       labelCommand       `cmd:"" help:"Draw the label for the bag of a part, with a QR code."`
	Backup      backupCommand      `cmd:"" help:"Copy the whole record to one file."`
	Export      exportCommand      `cmd:"" help:"Pack a job with its photographs, for another shop."`
	Import      importCommand      `cmd:"" help:"Take in a job from another shop, or a whole record from its backup."`
	Serve       serveCommand       `cmd:"" help:"Show jobs, record and kit on a page, for the telephone at the bench and the screen in the office."`
	Demo        demoCommand        `cmd:"" help:"Write three example jobs and work the first through."`
	Help        helpCommand        `cmd:"" help:"Show this help, that of one command, or what may stand in a job file: help job."`
}

// streams are where a verb reads and writes.
type streams struct {
	in       io.Reader
	out      io.Writer
	complain io.Writer
	terminal bool            // out is a terminal that shows colours
	until    context.Context // its end stops the work; nil: nothing does
}

// context is that of the work: it ends when the user wants no more of it.
func (s streams) context() context.Context {
	if s.until == nil {
		return context.Background()
	}
	return s.until
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second time ends the program at once
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, complain: os.Stderr, terminal: isTerminal(os.Stdout), until: ctx}))
}

// isTerminal reports whether a file is a terminal that wants colours.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// run carries out one command line and returns the exit status.
func run(args []string, s streams) int {
	var verbs commands
	exited := false
	parser, err := kong.New(&verbs,
		kong.Name("oddleg"),
		kong.Description(description),
		kong.Writers(s.out, s.complain),
		kong.Exit(func(int) { exited = true }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
	)
	if err != nil {
		panic("oddleg: the command line is described wrongly: " + err.Error())
	}
	if len(args) == 0 {
		args = []string{"help"}
	}
	line, err := parser.Parse(args)
	if exited {
		return done
	}
	if err == nil {
		err = line.Run(s, parser)
	}
	return status(err, s.complain)
}

const description = `From odd readings taken round a part with no drawing to its sizes, the part to be made, its drawing, set-ups, checks and record, with honest uncertainty.

Exit status: 0 done (with or without warnings), 2 the input is wrong, 1 anything else.`

// errReported is an error that has been told to the user already.
var errReported = errors.New("the input is wrong")

// status tells an error and returns the exit status it deserves.
func status(err error, complain io.Writer) int {
	var parse *kong.ParseError
	switch {
	case err == nil:
		return done
	case errors.Is(err, errReported):
		return wrongInput
	case errors.As(err, &parse):
		fmt.Fprintf(complain, "oddleg: %v; `oddleg help` lists the commands\n", err)
		return wrongInput
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(complain, "oddleg: stopped before the end; there is no answer")
		return broken
	}
	fmt.Fprintf(complain, "oddleg: %v\n", err)
	return broken
}
