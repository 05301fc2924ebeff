// Package access says who calls, and makes the names and secrets that follow
// from the service key.
//
// It answers: which shop is this credential for? Is this the secret of that
// session? A [Keyring] holds one service key; session ids, session secrets,
// quote ids and page tokens are keyed hashes of it, so that nothing secret is
// stored and a repeated request names the same thing. Comparisons take the
// same time whatever differs.
//
// Read [Policy.Enter] first. A secret is judged before the store is asked, so
// a wrong one says nothing about which sessions exist. Without a credential
// only the demo shop is served, and only to callers of the same machine.
package access
