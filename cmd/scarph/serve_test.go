package main

import (
	"net"
	"strconv"
	"strings"
	"testing"
)

// TestListen: a port alone is of this machine, and one that is taken says what to do.
func TestListen(t *testing.T) {
	l, err := listen("0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	at := l.Addr().(*net.TCPAddr)
	if !at.IP.IsLoopback() {
		t.Errorf("a port alone listens on %s", at)
	}
	port := strconv.Itoa(at.Port)
	for _, address := range []string{port, at.String()} {
		_, err := listen(address)
		if err == nil || !strings.Contains(err.Error(), at.String()+" is taken") || !strings.Contains(err.Error(), "\nhint: write --listen 127.0.0.1:"+strconv.Itoa(at.Port+1)+", or --listen 127.0.0.1:0") {
			t.Errorf("a port that is taken: %v", err)
		}
	}
}
