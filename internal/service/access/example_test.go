package access_test

import (
	"fmt"

	"daybreak/internal/service/access"
)

// A secret follows from the session's id; nothing secret is stored.
func Example() {
	keys, err := access.NewKeyring(make([]byte, access.KeySize))
	if err != nil {
		panic(err)
	}
	id := keys.SessionID("fernhill", "5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11")
	fmt.Println(keys.Owns(id, keys.Secret(id)) == nil)
	fmt.Println(keys.Owns(id, "a guess"))
	// Output:
	// true
	// daybreak-session: give the secret that CreateSession returned for this session
}
