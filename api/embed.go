// Package api holds what is generated from proto/ by
// go run ./internal/tools/contract, and the description of the REST routes
// that goes with it.
package api

import _ "embed"

// OpenAPI is the description of the REST routes, in JSON.
//
//go:embed openapi.json
var OpenAPI []byte
