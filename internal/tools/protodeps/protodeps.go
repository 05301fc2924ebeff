// Package protodeps prints the protos we import from others, out of the
// descriptors already linked into the Go modules, so that generating code
// needs neither a schema registry nor a network.
package protodeps

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/jhump/protoreflect/v2/protoprint"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	// Linked for their descriptors, which Print writes out.
	_ "buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	_ "google.golang.org/genproto/googleapis/api/annotations"
)

// wanted are the folders of imports the contract names; the well-known types
// come with buf.
var wanted = []string{"buf/", "google/api/"}

// Print writes every wanted proto below dir, each in the folder of its import
// path, and returns how many there are. What dir held before stays.
func Print(dir string) (int, error) {
	printer, count := protoprint.Printer{Compact: true}, 0
	var failed error
	protoregistry.GlobalFiles.RangeFiles(func(file protoreflect.FileDescriptor) bool {
		if !isWanted(file.Path()) {
			return true
		}
		text, err := printer.PrintProtoToString(file)
		if err == nil {
			err = write(filepath.Join(dir, filepath.FromSlash(file.Path())), text)
		}
		if err != nil {
			failed = fmt.Errorf("%s: %w", file.Path(), err)
			return false
		}
		count++
		return true
	})
	return count, failed
}

func isWanted(path string) bool {
	for _, w := range wanted {
		if strings.HasPrefix(path, w) {
			return true
		}
	}
	return false
}

func write(path, text string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, []byte(text), 0o644)
}
