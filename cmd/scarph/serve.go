package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"scarph/notebook"
	"scarph/notebook/live"
)

type serveCmd struct {
	Dir         string `arg:"" optional:"" default:"." complete:"journal" help:"The journal: a folder, or one Markdown file."`
	Listen      string `default:"127.0.0.1:7433" placeholder:"ADDR" help:"The address to listen on, or a port of this machine; port 0 picks a free one. 0.0.0.0:7433 lets a phone on the same network in, by an address with a token."`
	OthersWrite bool   `name:"others-write" help:"Let those who come by the token write, too."`
}

// Run serves the journal until it is interrupted.
func (c *serveCmd) Run(s *streams) error {
	n, err := notebook.Open(c.Dir)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	l, err := listen(c.Listen)
	if err != nil {
		return err
	}
	server := live.New(n, live.Options{OthersWrite: c.OthersWrite})
	server.On(l.Addr())
	fmt.Fprintf(s.err, "%s: %s, %s\n", n.Title(), counted2(len(n.Entries()), "entry", "entries"), counted(len(n.Problems(1<<30)), "problem"))
	c.greet(s, l.Addr(), server.Invitations())
	return server.Serve(ctx, l)
}

// listen opens the address; a port alone is one of this machine only.
func listen(address string) (net.Listener, error) {
	if _, err := strconv.ParseUint(address, 10, 16); err == nil {
		address = "127.0.0.1:" + address
	}
	l, err := net.Listen("tcp", address)
	if errors.Is(err, syscall.EADDRINUSE) {
		host, port, _ := net.SplitHostPort(address)
		at, _ := strconv.Atoi(port)
		return nil, fmt.Errorf("%s is taken: another program listens there, perhaps scarph with another journal\nhint: write --listen %s, or --listen %s for any port that is free", address, net.JoinHostPort(host, strconv.Itoa(at+1)), net.JoinHostPort(host, "0"))
	}
	if err != nil {
		return nil, fmt.Errorf("cannot listen on %s: %v\nhint: write --listen with a port, 7434, or an address with one, 127.0.0.1:7434", address, err)
	}
	return l, nil
}

// greet says where the journal can be read, and shows the picture for a phone.
func (c *serveCmd) greet(s *streams, here net.Addr, others []string) {
	if len(others) == 0 {
		fmt.Fprintf(s.out, "http://%s/\n", here)
		fmt.Fprintln(s.err, "Open that address in a browser; edit the files with any editor. Stop with Ctrl-C.")
		return
	}
	if a, ok := here.(*net.TCPAddr); ok && a.IP.IsUnspecified() {
		here = &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: a.Port}
	}
	fmt.Fprintf(s.out, "http://%s/\n", here)
	for _, a := range others {
		fmt.Fprintln(s.out, a)
	}
	if isScreen(s.err) && os.Getenv("NO_COLOR") == "" {
		if p, err := live.TerminalPicture(others[0]); err == nil {
			fmt.Fprint(s.err.(*screen).File, p) // its colours are our own
		}
	}
	may := "read the journal"
	if c.OthersWrite {
		may += " and write in it"
	}
	fmt.Fprintf(s.err, "Open the first address on this machine, another one on a phone. Whoever has one with the token can %s;\nthe token changes with every start. Stop with Ctrl-C.\n", may)
}

func isScreen(w io.Writer) bool {
	if _, ok := w.(*screen); ok {
		return true
	}
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

func counted2(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
