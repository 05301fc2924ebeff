package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// The least standard answer for each setting at 30 °C, no increase for drop.
// Sources: the pairs of setting and device are common practice; sizes computed
// from NEC Table 310.16, 334.80, 340.80, 240.4, Table 250.122; trade sizes from
// Chapter 9 Tables 1, 4 and 5, with a wire-type grounding conductor.
func TestStandardDesigns(t *testing.T) {
	for _, c := range []struct {
		setting, device              unit.Amps
		nm, uf, thwn75, thwn60, al75 string
		groundCu, groundAl           string
		emt2, emt3, pvc402, pvc403   edition.Trade
		pvc802, pvc803               edition.Trade
	}{
		{12, 15, "14", "14", "14", "14", "12", "14", "12", "1/2", "1/2", "1/2", "1/2", "1/2", "1/2"},
		{16, 20, "12", "12", "12", "12", "10", "12", "10", "1/2", "1/2", "1/2", "1/2", "1/2", "1/2"},
		{20, 25, "10", "10", "10", "10", "10", "10", "8", "1/2", "1/2", "1/2", "1/2", "1/2", "1/2"},
		{24, 30, "10", "10", "10", "10", "8", "10", "8", "1/2", "1/2", "1/2", "1/2", "1/2", "1/2"},
		{32, 40, "8", "8", "8", "8", "8", "10", "8", "1/2", "3/4", "1/2", "3/4", "3/4", "3/4"},
		{40, 50, "6", "6", "8", "6", "6", "10", "8", "1/2", "3/4", "1/2", "3/4", "3/4", "3/4"},
		{48, 60, "4", "4", "6", "4", "4", "10", "8", "3/4", "3/4", "3/4", "3/4", "3/4", "1"},
		{64, 80, "3", "3", "4", "3", "2", "8", "6", "3/4", "1", "3/4", "1", "1", "1-1/4"},
		{80, 100, "", "1", "3", "1", "1", "8", "6", "1", "1", "1", "1", "1", "1-1/4"},
	} {
		for _, year := range []int{2017, 2020, 2023, 2026} {
			b := book(t, year)
			device, err := circuit.DeviceFor(b, c.setting)
			require.NoError(t, err)
			require.Equal(t, c.device, device.Value)
			least := func(m edition.Method, metal edition.Material, mark edition.Marking) string {
				s, err := circuit.SmallestConductor(b, m, metal, circuit.Demand{Load: c.setting, Device: c.device, Marking: mark,
					Surroundings: edition.Surroundings{Ambient: 30, CurrentCarrying: 2}})
				require.NoError(t, err)
				return s.Size.Trade()
			}
			require.Equal(t, c.nm, least(edition.NMB, edition.Copper, edition.Unmarked), c.setting)
			require.Equal(t, c.uf, least(edition.UFB, edition.Copper, edition.Unmarked), c.setting)
			require.Equal(t, c.thwn75, least(edition.THWN2, edition.Copper, edition.Marked75), c.setting)
			require.Equal(t, c.thwn60, least(edition.THWN2, edition.Copper, edition.Unmarked), c.setting)
			require.Equal(t, c.al75, least(edition.XHHW2, edition.Aluminium, edition.Marked75), c.setting)
			cu, err := b.GroundingConductor(c.device, edition.Copper)
			require.NoError(t, err)
			al, err := b.GroundingConductor(c.device, edition.Aluminium)
			require.NoError(t, err)
			require.Equal(t, []string{c.groundCu, c.groundAl}, []string{cu.Value.Trade(), al.Value.Trade()})
			holds := func(r edition.Raceway, hots int) edition.Trade {
				hot, err := b.SizeNamed(c.thwn75)
				require.NoError(t, err)
				f, err := b.RacewayFor(r, edition.Contents{Pulls: [4]edition.Pull{
					{Count: hots, Size: hot, Method: edition.THWN2}, {Count: 1, Size: cu.Value, Method: edition.THWN2}}})
				require.NoError(t, err)
				return f.Value.Trade
			}
			require.Equal(t, []edition.Trade{c.emt2, c.emt3, c.pvc402, c.pvc403, c.pvc802, c.pvc803},
				[]edition.Trade{holds(edition.EMT, 2), holds(edition.EMT, 3), holds(edition.PVC40, 2), holds(edition.PVC40, 3), holds(edition.PVC80, 2), holds(edition.PVC80, 3)}, c.setting)
		}
	}
}

// Every standard setting is designed, in every edition and by every way of
// wiring that comes large enough, at the least size its tables allow.
// Source: the same tables, read here by setting.
func TestEverySettingIsDesignedEveryWay(t *testing.T) {
	least := map[string]map[unit.Amps]string{
		"NM-B":          {12: "14", 16: "12", 20: "10", 24: "10", 28: "8", 32: "8", 36: "6", 40: "6", 44: "6", 48: "4", 56: "4", 64: "3", 72: "2"},
		"UF-B":          {12: "14", 16: "12", 20: "10", 24: "10", 28: "8", 32: "8", 36: "6", 40: "6", 44: "6", 48: "4", 56: "4", 64: "3", 72: "2", 80: "1"},
		"THWN-2 in EMT": {12: "14", 16: "12", 20: "10", 24: "10", 28: "8", 32: "8", 36: "8", 40: "8", 44: "6", 48: "6", 56: "4", 64: "4", 72: "3", 80: "3"},
	}
	least["THWN-2 in PVC 40"], least["THWN-2 in RMC"], least["MC"] = least["THWN-2 in EMT"], least["THWN-2 in EMT"], least["THWN-2 in EMT"]
	least["XHHW-2 in EMT"] = least["THWN-2 in EMT"]
	methods := map[string]circuit.MethodSet{"NM-B": circuit.UseNMB, "UF-B": circuit.UseUFB, "MC": circuit.UseMC, "THWN-2 in EMT": circuit.UseEMT,
		"THWN-2 in PVC 40": circuit.UsePVC, "THWN-2 in RMC": circuit.UseRMC, "XHHW-2 in EMT": circuit.UseEMT | circuit.UseXHHW2}
	for _, year := range []int{2017, 2020, 2023, 2026} {
		for name, use := range methods {
			for _, setting := range circuit.StandardSettings() {
				job := plainJob(setting)
				job.Terminals, job.Methods, job.Route.Segments[0].Feet = edition.Marked75, use, 10
				r := design(t, year, job)
				want := least[name][setting]
				if want == "" {
					require.Equal(t, circuit.NoConductor, r.Reason, "%d %s %v A", year, name, setting)
					continue
				}
				require.Equal(t, circuit.Designed, r.Outcome, "%d %s %v A: %v", year, name, setting, r.Reason)
				p := &r.Chosen.Parts[0]
				require.Equal(t, name, circuit.MethodName(p.Method, p.Raceway))
				require.Equal(t, want, p.Hot.Trade(), "%d %s %v A", year, name, setting)
			}
		}
	}
}
