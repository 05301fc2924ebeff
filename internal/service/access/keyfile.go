package access

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"daybreak/internal/fault"
)

// keyFile is the name of the key file in the data directory.
const keyFile = "service.key"

// OpenKeyFile reads the service key of a data directory, and makes one on the
// first start. The file holds 64 hexadecimal digits and is its owner's alone.
func OpenKeyFile(dir string) (*Keyring, error) {
	path := filepath.Join(dir, keyFile)
	raw, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return makeKeyFile(path)
	}
	if err != nil {
		return nil, fault.InFile(path, 0, "", err, "a readable file with the service key")
	}
	return parseKey(path, raw)
}

func parseKey(path string, raw []byte) (*Keyring, error) {
	key, err := hex.DecodeString(strings.TrimSpace(string(raw)))
	if err != nil || len(key) != KeySize {
		// What the file holds may be half a key: it is not repeated here.
		return nil, fault.InFile(path, 1, "", "something else", "64 hexadecimal digits")
	}
	return NewKeyring(key)
}

// makeKeyFile writes a new key. Two starts at once agree on one key: whoever
// comes second reads what the first has made.
func makeKeyFile(path string) (*Keyring, error) {
	key := make([]byte, KeySize)
	rand.Read(key)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, unwritable(path, err)
	}
	temp, err := os.CreateTemp(filepath.Dir(path), keyFile+".*")
	if err != nil {
		return nil, unwritable(path, err)
	}
	_, err = temp.WriteString(hex.EncodeToString(key) + "\n")
	err = errors.Join(err, temp.Sync(), temp.Close())
	if err == nil {
		err = os.Link(temp.Name(), path)
	}
	removed := os.Remove(temp.Name())
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, unwritable(path, err)
	}
	if removed != nil {
		return nil, unwritable(path, removed)
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		return nil, fault.InFile(path, 0, "", err, "a readable file with the service key")
	}
	return parseKey(path, raw)
}

func unwritable(path string, err error) error {
	return fault.InFile(path, 0, "", err, "a data directory that this user may write; name another one")
}
