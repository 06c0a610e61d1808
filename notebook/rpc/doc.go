// Package rpc carries JSON-RPC 2.0 messages over a pair of streams, each message
// behind a Content-Length header or on a line of its own.
//
// A Conn reads messages in one goroutine and hands requests and notifications to its
// handler in their order; answers, notifications and requests of its own may be
// written by any goroutine.
package rpc
