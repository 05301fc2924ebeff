package quote

import "daybreak/internal/circuit/outlet"

// faces are the receptacles by configuration.
var faces = func() map[string]*outlet.Receptacle {
	all := map[string]*outlet.Receptacle{}
	for _, r := range outlet.Receptacles() {
		all[r.ID] = r
	}
	return all
}()

// faceLevel is the charging level of a configuration; 0 when it is none.
func faceLevel(config string) int {
	if r, ok := faces[config]; ok {
		return r.Level()
	}
	return 0
}
