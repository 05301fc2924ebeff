// Package service answers calls: the four services of the contract behind one
// guard, over gRPC and, through an in-process channel, for the web front.
//
// It answers: who calls, is the request sound, which room does the work, and
// what is the caller told? Every call passes one way in, [guard]: request id,
// limits, access, validation, handler, status. The order is the same for
// streams and for REST, which has no way round it. [Status] is the one place
// where a kind of fault becomes a code with its details.
//
// Handlers are short: request to core (package wire), at most two trips to the
// store, core to reply. They decide no engineering and make no words. A panic
// is caught, logged whole and told as an internal error with a request id.
//
// Read [New] first, then [guard]. Standards used: gRPC status codes and
// google.rpc error details; the Google API Improvement Proposals for names,
// pages, request ids and revisions; RFC 4122 for request ids.
package service
