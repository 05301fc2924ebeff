package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"daybreak/internal/charging"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition/nec"
	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"
	"daybreak/internal/panel"
	"daybreak/internal/quote/caution"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// doubt is one value whose status is not verified.
type doubt struct {
	file    string
	line    int
	what    string
	section string
	status  string
}

// rooms holds the data every shop shares, by the room that gives it meaning.
// The code book states its source once a table; its own room says which cells
// inherit it.
func rooms() map[string]fs.FS {
	return map[string]fs.FS{
		"panel": panel.Embedded(), "charging": charging.Embedded(), "quote/caution": caution.Embedded(),
		"circuit/outlet": outlet.Embedded(), "intake/tree/house": tree.Embedded(),
	}
}

// listSources prints every value that is not verified, and how many there are
// of each status.
func listSources(out io.Writer) error {
	all, err := codeBookDoubts()
	if err != nil {
		return err
	}
	data := rooms()
	for _, room := range slices.Sorted(maps.Keys(data)) {
		found, err := roomDoubts(room, data[room])
		if err != nil {
			return err
		}
		all = append(all, found...)
	}
	count := map[string]int{}
	for _, d := range all {
		fmt.Fprintf(out, "%s:%d\t%s\t%s\t%s\n", d.file, d.line, d.what, d.section, d.status)
		count[d.status]++
	}
	for _, status := range slices.Sorted(maps.Keys(count)) {
		fmt.Fprintf(out, "%d %s\n", count[status], status)
	}
	return nil
}

func codeBookDoubts() (all []doubt, err error) {
	for _, year := range nec.Years() {
		cells, err := nec.Unverified(nec.Embedded(), year)
		if err != nil {
			return nil, err
		}
		for _, c := range cells {
			all = append(all, doubt{
				file: "edition/nec/" + c.File, line: c.Line, what: c.Table + " " + c.Source.Cell + " = " + c.Value,
				section: c.Source.Publication + " " + c.Source.Section, status: string(c.Source.Status),
			})
		}
	}
	return all, nil
}

// roomDoubts reads the status beside each value of a room's files: a column of
// a table, or a member of a mapping, by edition where it differs.
func roomDoubts(room string, fsys fs.FS) (all []doubt, err error) {
	err = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		file := path.Join(room, name)
		switch path.Ext(name) {
		case ".csv":
			rows, err := tableDoubts(file, raw)
			all = append(all, rows...)
			return err
		case ".yaml":
			var doc yaml.Node
			if err := yaml.Unmarshal(raw, &doc); err != nil {
				return fault.InFile(file, 0, "", err.Error(), "YAML")
			}
			if len(doc.Content) > 0 {
				root := doc.Content[0]
				publication := scalar(member(root, "publication"))
				all = append(all, mappingDoubts(file, root, "", publication)...)
			}
		}
		return nil
	})
	return all, err
}

func tableDoubts(file string, raw []byte) (all []doubt, err error) {
	r := csv.NewReader(bytes.NewReader(raw))
	r.Comment = '#'
	head, err := r.Read()
	if err != nil {
		return nil, fault.InFile(file, 1, "", err.Error(), "a row of column names")
	}
	status, source := slices.Index(head, "status"), slices.Index(head, "source")
	for {
		row, err := r.Read()
		if err == io.EOF || status < 0 {
			return all, nil
		}
		if err != nil {
			return nil, fault.InFile(file, 0, "", err.Error(), "rows of as many values as columns")
		}
		if row[status] == string(working.Verified) {
			continue
		}
		line, _ := r.FieldPos(status)
		section := ""
		if source >= 0 {
			section = row[source]
		}
		all = append(all, doubt{file, line, strings.Join(row[:min(3, status)], " "), section, row[status]})
	}
}

// mappingDoubts walks a document; name is what the part at hand is called.
func mappingDoubts(file string, n *yaml.Node, name, publication string) (all []doubt) {
	if n.Kind == yaml.SequenceNode {
		for _, item := range n.Content {
			all = append(all, mappingDoubts(file, item, name, publication)...)
		}
		return all
	}
	if n.Kind != yaml.MappingNode {
		return nil
	}
	for _, key := range []string{"id", "code", "leaf", "name"} {
		if own := scalar(member(n, key)); own != "" {
			name = strings.TrimSpace(name + " " + own)
			break
		}
	}
	all = append(all, statusDoubts(file, n, name, publication)...)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if key.Value == "status" || key.Value == "section" {
			continue
		}
		below := name
		if value.Kind == yaml.MappingNode || value.Kind == yaml.SequenceNode {
			below = strings.TrimSpace(name + " " + key.Value)
		}
		all = append(all, mappingDoubts(file, value, below, publication)...)
	}
	return all
}

func statusDoubts(file string, n *yaml.Node, name, publication string) (all []doubt) {
	status, section := member(n, "status"), member(n, "section")
	if section == nil {
		section = member(n, "source")
	}
	add := func(at *yaml.Node, edition, word string) {
		if working.Status(word).Known() && word != string(working.Verified) {
			where := strings.TrimSpace(publication + " " + edition + " " + inForce(section, edition))
			if name == "" {
				name = "the whole file"
			}
			all = append(all, doubt{file, at.Line, name, strings.Join(strings.Fields(where), " "), word})
		}
	}
	switch {
	case status == nil:
	case status.Kind == yaml.MappingNode:
		for i := 0; i+1 < len(status.Content); i += 2 {
			add(status.Content[i], status.Content[i].Value, status.Content[i+1].Value)
		}
	default:
		add(status, "", status.Value)
	}
	return all
}

// inForce is a dated value in an edition: the newest not after it.
func inForce(n *yaml.Node, edition string) string {
	if n == nil || n.Kind != yaml.MappingNode {
		return scalar(n)
	}
	value := ""
	for i := 0; i+1 < len(n.Content); i += 2 {
		if edition == "" || n.Content[i].Value <= edition {
			value = n.Content[i+1].Value
		}
	}
	return value
}

func member(n *yaml.Node, key string) *yaml.Node {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

func scalar(n *yaml.Node) string {
	if n == nil || n.Kind != yaml.ScalarNode {
		return ""
	}
	return n.Value
}
