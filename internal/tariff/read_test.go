package tariff_test

import (
	"io"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/tariff"

	"github.com/stretchr/testify/require"
)

// endless generates a file without an end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestPublishedFormatRefusals(t *testing.T) {
	good := `{"label":"x","energyratestructure":[[{"rate":0.1,"max":500,"unit":"kWh"},{"rate":0.2,"unit":"kWh"}]],` +
		`"energyweekdayschedule":` + rows("0") + `,"energyweekendschedule":` + rows("0") + `,"fixedchargefirstmeter":9,"fixedchargeunits":"$/month"}`
	_, err := tariff.ReadPublished(strings.NewReader(good), "x.json", usd(t))
	require.NoError(t, err)
	_, err = tariff.ReadPublished(strings.NewReader(`{"items":[`+good+`]}`), "x.json", usd(t))
	require.NoError(t, err)
	for name, c := range map[string]struct{ from, to, want string }{
		"a month missing":      {`"energyweekdayschedule":[[0,`, `"energyweekdayschedule":[],"was":[[0,`, "no month without prices"},
		"an hour missing":      {`"energyweekendschedule":[[0,0,`, `"energyweekendschedule":[[0,`, "energyweekendschedule[0]: \"23 hours\""},
		"an hour twice":        {`"energyweekendschedule":[[0,`, `"energyweekendschedule":[[0,0,`, "25 hours"},
		"an hour of no price":  {`"energyweekdayschedule":[[0,`, `"energyweekdayschedule":[[1,`, "every hour needs a price"},
		"no weekends":          {`"energyweekendschedule"`, `"elsewhere"`, "energyweekendschedule"},
		"tiers that overlap":   {`"max":500,"unit":"kWh"},`, `"max":500},{"rate":0.3,"max":400},`, "tiers must not overlap"},
		"tiers that end":       {`{"rate":0.2,"unit":"kWh"}`, `{"rate":0.2,"max":900}`, "would have no price"},
		"a unit by peak":       {`"max":500,"unit":"kWh"`, `"max":500,"unit":"kWh/kW"`, "kWh or kWh daily"},
		"a ratchet":            {`"label"`, `"demandratchetpercentage":[80],"label"`, "demandratchetpercentage"},
		"a silly price":        {`0.2`, `1e9`, "to 10 per kWh"},
		"charge per fortnight": {`$/month`, `$/fortnight`, "fixedchargefirstmeter"[:5]},
		"not a rate":           {`{"label":"x"`, `{"label":7`, "x.json"},
		"no label":             {`"label":"x"`, `"label":""`, "label"},
	} {
		bad := strings.Replace(good, c.from, c.to, 1)
		require.NotEqual(t, good, bad, name)
		list, err := tariff.ReadPublished(strings.NewReader(bad), "x.json", usd(t))
		require.ErrorContains(t, err, c.want, name)
		require.ErrorContains(t, err, "x.json", name)
		require.Empty(t, list, name)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, name)
	}
	_, err = tariff.ReadPublished(endless{}, "x.json", usd(t))
	require.ErrorContains(t, err, "at most 1048576 bytes")
	_, err = tariff.ReadPublished(strings.NewReader("{\n\x00}"), "x.json", usd(t))
	require.ErrorContains(t, err, "x.json:2: \"a NUL byte\"")
	_, err = tariff.ReadPublished(io.MultiReader(strings.NewReader("["+good+","+good+"]")), "x.json", usd(t))
	require.ErrorContains(t, err, "each label once")
}

const ours = `label: ours
name: Ours
utility: Alder Bay Municipal Light
currency: USD
source: invented for this test
status: engineering judgement
periods:
  night: [{rate: 0.08}]
  day: [{rate: 0.2, up_to_kwh: 300}, {rate: 0.25}]
seasons:
  - months: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
    weekday: [{hours: 21 to 7, period: night}, {hours: 7 to 21, period: day}]
    weekend: [{hours: 0 to 24, period: night}]
fixed: {amount: 0.4, per: day}
`

func TestOurFormat(t *testing.T) {
	list, err := tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(ours)}})
	require.NoError(t, err)
	require.Equal(t, uint8(0), list[0].Weekday[0][23])
	require.Equal(t, uint8(1), list[0].Weekday[0][7])
	require.Equal(t, uint8(0), list[0].Weekend[6][12])
	for name, c := range map[string]struct{ from, to, want string }{
		"an hour left out":      {"7 to 21", "8 to 21", "a.yaml:11: hours: \"no period for hour 7\""},
		"an hour twice":         {"7 to 21", "6 to 21", "must not overlap"},
		"a month left out":      {"11, 12]", "11]", "no season for month 12"},
		"a month twice":         {"11, 12]", "11, 11, 12]", "seasons must not overlap"},
		"an unknown period":     {"period: day}]", "period: noon}]", "a.yaml:12: period"},
		"hours that are none":   {"21 to 7", "21 to 25", "hours such as 7 to 16"},
		"a key misspelt":        {"utility:", "utilty:", "utilty"},
		"tiers that end":        {"{rate: 0.25}", "{rate: 0.25, up_to_kwh: 900}", "would have no price"},
		"no source":             {"source: invented for this test", "source: \"\"", "source"},
		"another currency unit": {"USD", "dollars", "currency"},
		"per fortnight":         {"per: day", "per: fortnight", "month, day or year"},
		"no periods":            {"periods:\n  night: [{rate: 0.08}]\n  day: [{rate: 0.2, up_to_kwh: 300}, {rate: 0.25}]", "periods: {}", "periods"},
	} {
		bad := strings.Replace(ours, c.from, c.to, 1)
		require.NotEqual(t, ours, bad, name)
		_, err := tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(bad)}})
		require.ErrorContains(t, err, c.want, name)
	}
	_, err = tariff.Load(fstest.MapFS{})
	require.Error(t, err)
	_, err = tariff.Load(fstest.MapFS{"a.yaml": {Data: []byte(ours)}, "b.yaml": {Data: []byte(ours)}})
	require.ErrorContains(t, err, "each label once")
}

func FuzzReadPublished(f *testing.F) {
	f.Add(`{"label":"x","energyratestructure":[[{"rate":0.1}]],"energyweekdayschedule":` + rows("0") + `,"energyweekendschedule":` + rows("0") + `}`)
	f.Add(`[{"flatdemandstructure":[[{"rate":4}]],"flatdemandmonths":[0]}]`)
	f.Add(`{"items":null}`)
	f.Add("\x00")
	f.Fuzz(func(t *testing.T, raw string) {
		_, err := tariff.ReadPublished(strings.NewReader(raw), "f.json", usd(t))
		for _, one := range fault.All(err) {
			require.Equal(t, "f.json", one.File)
		}
		require.Equal(t, err != nil, len(fault.All(err)) > 0)
	})
}

func FuzzLoad(f *testing.F) {
	f.Add(ours)
	f.Add("periods: [1]\nseasons: {}\n")
	f.Add("label: x\ncurrency: USD\nperiods: {a: [{rate: .inf}]}\nsource: s\nstatus: computed\nseasons: [{months: [1], weekday: [{hours: 0 to 24, period: a}]}]\n")
	f.Fuzz(func(t *testing.T, raw string) {
		_, err := tariff.Load(fstest.MapFS{"f.yaml": {Data: []byte(raw)}})
		require.Equal(t, err != nil, len(fault.All(err)) > 0)
	})
}
