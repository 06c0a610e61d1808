// Command scarph keeps a boat's journal: Markdown files whose numbers stay live.
//
// Each verb has a file. Results go to stdout, everything said to people to stderr;
// the exit status is 0 when all is well, 1 when the journal has errors or failing
// checks, 2 when the command was wrong.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"scarph/calc"
)

// Version is set by the linker.
var Version = "dev"

// commands is the one table of verbs.
type commands struct {
	New        newCmd        `cmd:"" help:"Make a journal that already shows the way."`
	Serve      serveCmd      `cmd:"" help:"Show a journal in the browser, live while you write."`
	Publish    publishCmd    `cmd:"" help:"Write the journal as a web site in a folder."`
	Check      checkCmd      `cmd:"" help:"List what is wrong, and whether the checks hold."`
	Calc       calcCmd       `cmd:"" help:"Work out an expression; without one, ask for them."`
	Dimensions dimensionsCmd `cmd:"" help:"List all named values."`
	Cutlist    cutlistCmd    `cmd:"" help:"List the parts, what is made, and what is still to make."`
	Patterns   patternsCmd   `cmd:"" help:"Print shapes at true size, or tables for the shop's wall."`
	History    historyCmd    `cmd:"" help:"Tell how values came to be what they are."`
	Ripple     rippleCmd     `cmd:"" help:"Tell what would move if a value were another."`
	Functions  functionsCmd  `cmd:"" help:"List the functions of the trade, or tell about one."`
	Kernel     kernelCmd     `cmd:"" help:"Answer other programs: JSON-RPC on the standard streams."`
	Lsp        lspCmd        `cmd:"" name:"lsp" help:"Serve an editor: the Language Server Protocol on the standard streams."`

	Completion completionCmd `cmd:"" help:"Print a file that completes words on the command line."`
	Man        manCmd        `cmd:"" help:"Print the manual page."`
	Propose    proposeCmd    `cmd:"" hidden:"" help:"Say what could stand at the end of a command line."`

	Version kong.VersionFlag `help:"Print the version."`
}

// streams are the program's input and outputs.
type streams struct {
	in       io.Reader
	out, err io.Writer
	args     []string
	model    *kong.Application
}

// failure is an exit status with what was to be said already said.
type failure int

func (f failure) Error() string { return fmt.Sprintf("exit status %d", int(f)) }

const (
	statusProblems failure = 1
	statusUsage    failure = 2
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run is main with its surroundings given.
func run(args []string, in io.Reader, out, errw io.Writer) int {
	var c commands
	exited := -1
	parser, err := kong.New(&c, kong.Name("scarph"),
		kong.Description("A boatbuilder's journal whose numbers stay live."),
		kong.Vars{"version": "scarph " + Version},
		kong.Writers(out, errw), kong.Exit(func(n int) { exited = n }), kong.UsageOnError(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true}))
	if err != nil {
		fmt.Fprintln(errw, "scarph:", err)
		return int(statusUsage)
	}
	s := &streams{in: in, out: tamed(out), err: tamed(errw), args: args, model: parser.Model}
	ctx, err := parser.Parse(meant(args))
	if exited >= 0 {
		return exited
	}
	if err != nil {
		text, _, _ := strings.Cut(err.Error(), ", did you mean")
		fmt.Fprintf(errw, "scarph: %s\nhint: %s\n", text, usageHint(text, args, parser))
		return int(statusUsage)
	}
	ctx.Bind(s)
	if err := ctx.Run(s); err != nil {
		var f failure
		if errors.As(err, &f) {
			return int(f)
		}
		fmt.Fprintf(errw, "scarph: %v\n", err)
		return int(statusUsage)
	}
	return 0
}

// meant is a command line as its writer meant it: help asks for help, and an expression
// that begins with a minus and a number is no flag.
func meant(args []string) []string {
	if len(args) == 0 {
		return []string{"--help"}
	}
	if args[0] == "help" {
		return append(slices.Clone(args[1:]), "--help")
	}
	if args[0] != "calc" || slices.Contains(args, "--") {
		return args
	}
	for i, a := range args {
		if len(a) > 1 && a[0] == '-' && (strings.IndexByte("0123456789.(", a[1]) >= 0 || a[1] >= 0x80) {
			return append(slices.Delete(slices.Clone(args), i, i+1), "--", a)
		}
	}
	return args
}

// usageHint says what to write instead of a line that is no command.
func usageHint(fault string, args []string, p *kong.Kong) string {
	if len(args) > 0 && args[0] == "help" {
		args = args[1:]
	}
	if verb := unknownVerb(args, p); verb != "" {
		return "did you mean " + verb + "?"
	}
	if strings.HasPrefix(fault, "unknown flag") && args[0] == "calc" && strings.HasPrefix(args[len(args)-1], "-") {
		return "an expression that begins with a minus stands behind --: scarph calc -- " + shellWord(args[len(args)-1])
	}
	return "scarph --help lists the verbs, scarph VERB --help tells about one"
}

// shellWord writes a word so that a shell takes it as one.
func shellWord(s string) string {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./:@%+,", r) || r >= 0x80
	}
	if s != "" && strings.IndexFunc(s, func(r rune) bool { return !plain(r) }) < 0 {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// unknownVerb suggests a verb for a mistyped one.
func unknownVerb(args []string, p *kong.Kong) string {
	var names []string
	for _, n := range p.Model.Children {
		names = append(names, n.Name)
	}
	if len(args) == 0 || strings.HasPrefix(args[0], "-") {
		return ""
	}
	for _, n := range names {
		if n == args[0] {
			return ""
		}
	}
	return calc.Nearest(args[0], names)
}
