package service

import (
	"fmt"

	"daybreak/internal/fault"
)

// MaxRequest is the most bytes a request may have, over gRPC and REST alike.
const MaxRequest = 64 << 10

// TooLarge is the fault of a web request beyond [MaxRequest], refused before it
// was read. Over gRPC the transport itself refuses: it reads the length alone
// and answers ResourceExhausted with both figures, before anything of ours runs.
func TooLarge() *fault.Fault {
	return &fault.Fault{
		Kind: fault.KindExhausted, Reason: "REQUEST_TOO_LARGE", Field: "request",
		Accepted: fmt.Sprintf("at most %d bytes (64 KiB)", MaxRequest),
	}
}
