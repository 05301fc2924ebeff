package embedded

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/store"

	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// FileName is the store's file in the data directory.
const FileName = "daybreak.db"

// Config says where and how to keep the store. Only Dir is needed.
type Config struct {
	Dir      string           // made when it is not there
	Lives    store.Lives      // zero fields take their defaults
	Now      func() time.Time // time.Now when nil
	Sweep    time.Duration    // between sweeps for expired things; a minute when zero
	MaxBytes int              // the file grows no larger; 0 for no bound
}

const (
	lockWait   = time.Second
	fileFormat = "1"
	sweepEvery = time.Minute
)

var (
	metaBucket   = []byte("meta")
	headBucket   = []byte("session")  // what never changes of a session
	stateBucket  = []byte("state")    // head revision and expiry
	logBucket    = []byte("log")      // session key and number → entry
	doneBucket   = []byte("requests") // session key and request → body and revision
	goneBucket   = []byte("gone")     // tombstones
	quoteBucket  = []byte("quote")
	bookBucket   = []byte("book")
	replyBucket  = []byte("reply")
	expiryBucket = []byte("expiry") // due time and key → bucket
	formatKey    = []byte("format")
)

var buckets = [][]byte{metaBucket, headBucket, stateBucket, logBucket, doneBucket, goneBucket, quoteBucket, bookBucket, replyBucket, expiryBucket}

// Open opens the store, making directory and file when they are not there. It
// faults a directory that cannot be written, saying what to do, a file held by
// another process, naming it, and a file of another format.
func Open(c Config) (*Store, error) {
	if c.Dir == "" {
		return nil, fault.Invalid("data_dir", c.Dir, "a directory to keep the store in")
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Sweep <= 0 {
		c.Sweep = sweepEvery
	}
	if err := os.MkdirAll(c.Dir, 0o700); err != nil {
		return nil, unwritable(c.Dir, err)
	}
	path := filepath.Join(c.Dir, FileName)
	if err := ensure(path); err != nil {
		return nil, unwritable(c.Dir, err)
	}
	db, err := bolt.Open(path, 0o600, options(c))
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, held(path)
	case errors.Is(err, fs.ErrPermission):
		return nil, unwritable(c.Dir, err)
	case err != nil:
		return nil, fault.InFile(path, 0, "", err, "a store file of this program; move the broken one away and restore a backup")
	}
	if err := checkFormat(db, path); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	if err := writeHolder(path); err != nil {
		return nil, errors.Join(unwritable(c.Dir, err), db.Close())
	}
	return start(c, db), nil
}

func options(c Config) *bolt.Options {
	o := *bolt.DefaultOptions
	o.Timeout = lockWait
	o.FreelistType = bolt.FreelistMapType
	o.MaxSize = c.MaxBytes
	return &o
}

// ensure makes the file when it is not there: beside its place, synced, then
// linked into it, then the directory synced. A link, unlike a rename, never
// replaces the file of another process that was quicker.
func ensure(path string) (err error) {
	if _, err := os.Stat(path); err == nil || !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	dir := filepath.Dir(path)
	f, err := os.CreateTemp(dir, FileName+".new-*")
	if err != nil {
		return err
	}
	fresh := f.Name()
	defer func() { err = errors.Join(err, removed(fresh)) }()
	if err := f.Close(); err != nil {
		return err
	}
	if err := fill(fresh); err != nil {
		return err
	}
	if err := os.Link(fresh, path); err != nil && !errors.Is(err, fs.ErrExist) {
		if err := os.Rename(fresh, path); err != nil { // a file system without links
			return err
		}
	}
	return syncDir(dir)
}

// fill lays out an empty store and flushes it.
func fill(path string) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: lockWait})
	if err != nil {
		return err
	}
	err = db.Update(func(tx *bolt.Tx) error {
		for _, name := range buckets {
			if _, err := tx.CreateBucketIfNotExists(name); err != nil {
				return err
			}
		}
		return tx.Bucket(metaBucket).Put(formatKey, []byte(fileFormat))
	})
	return errors.Join(err, db.Close())
}

func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

func removed(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

func checkFormat(db *bolt.DB, path string) error {
	return db.View(func(tx *bolt.Tx) error {
		got := ""
		for _, name := range buckets {
			if tx.Bucket(name) == nil {
				return fault.InFile(path, 0, string(name), "missing", "a store file of this program")
			}
		}
		if got = string(tx.Bucket(metaBucket).Get(formatKey)); got != fileFormat {
			return fault.InFile(path, 0, "format", got, "format "+fileFormat+"; a newer program wrote it")
		}
		return nil
	})
}

func unwritable(dir string, cause error) error {
	return fmt.Errorf("%w: %w", &fault.Fault{
		Kind: fault.KindPrecondition, Reason: "DATA_DIR", Field: "data_dir", Got: dir,
		Accepted: "a directory this user may write",
		Detail:   "name another with --data-dir, or make this one yours with chown",
	}, cause)
}

// holder says who holds the file, for the one who comes second.
type holder struct {
	PID   int       `json:"pid"`
	Since time.Time `json:"since"`
}

func writeHolder(path string) error {
	raw, err := json.Marshal(holder{os.Getpid(), time.Now().UTC().Truncate(time.Second)})
	if err != nil {
		return err
	}
	return os.WriteFile(path+".pid", raw, 0o600)
}

func held(path string) error {
	who := "another process"
	var h holder
	if raw, err := os.ReadFile(path + ".pid"); err == nil && json.Unmarshal(raw, &h) == nil && h.PID > 0 {
		who = fmt.Sprintf("process %d since %s", h.PID, h.Since.Format(time.DateTime))
	}
	return &fault.Fault{
		Kind: fault.KindUnavailable, Reason: "STORE_HELD", File: path,
		Detail: "the store is held by " + who + "; stop it, or give this one a --data-dir of its own",
	}
}
