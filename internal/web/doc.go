// Package web is the service over HTTP: REST, server-sent events, the chat page
// and health.
//
// It answers: how does a browser or a curl line reach the same handlers as a
// gRPC client? REST is the gateway generated from the contract over an
// in-process channel, so every interceptor runs and streams work. A request is
// refused here, before it is decoded, when it is too large, is no JSON, nests
// too deep or comes from another site; everything else is judged behind the
// channel. Errors have the content of their gRPC twins, in JSON.
//
// Read [New] first. [Handler] is what it makes; [NewServer] puts the timeouts
// round it. Standards used: RFC 9110, the HTML standard's server-sent events,
// google.rpc.Status in JSON, Content Security Policy Level 3.
//
// The room holds no state and knows no shop; the page's own files are room
// web/page.
package web
