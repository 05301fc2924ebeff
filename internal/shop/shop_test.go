package shop_test

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func date(t testing.TB, s string) unit.Date {
	t.Helper()
	d, ok := unit.ParseDate(s)
	require.True(t, ok)
	return d
}

// folder copies the demo shop into memory.
func folder(t testing.TB) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(alderbay.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(alderbay.Files(), name)
		out[name] = &fstest.MapFile{Data: raw}
		return err
	}))
	return out
}

func TestTheDemoShopLoadsWhole(t *testing.T) {
	require.Empty(t, shop.Check(alderbay.Files()))
	s, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	require.Equal(t, "Fernhill Home & Motor", s.Name)
	require.True(t, s.Demo)
	require.True(t, s.Prices.Demo)
	require.Equal(t, 550, s.Prices.Items())
	require.Equal(t, s.Prices.PostalCodes(), s.Jurisdictions.PostalCodes())
	require.Len(t, s.Revisions, 3)
	for _, r := range s.Revisions {
		require.Len(t, r.Digest, 64)
	}
}

func TestTheEditionFollowsTheDateOfThePermit(t *testing.T) {
	s, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	for _, c := range []struct {
		postal, on string
		want       int
	}{
		{"00010", "2026-11-25", 2023}, {"00010", "2024-06-30", 2020}, {"00010", "2001-01-01", 2020},
		{"00020", "2026-06-30", 2020}, {"00020", "2026-07-01", 2023}, {"00030", "2026-11-25", 2017},
	} {
		l, ok := s.Jurisdictions.At(c.postal, date(t, c.on))
		require.True(t, ok)
		require.Equal(t, c.want, l.Edition, "%s on %s", c.postal, c.on)
	}
	_, ok := s.Jurisdictions.At("12345", date(t, "2026-11-25"))
	require.False(t, ok)
	_, ok = s.Jurisdictions.EditionOf("nowhere", date(t, "2026-11-25"))
	require.False(t, ok)
}

func TestAPostalCodeHasAPlaceAndALocality(t *testing.T) {
	s, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	place, locality, err := s.At("00022", date(t, "2026-11-25"))
	require.NoError(t, err)
	require.Equal(t, "alder-county", place.Region())
	require.Equal(t, "14742", locality.StationWBAN)
	require.Equal(t, "America/Los_Angeles", locality.TimeZone)
	_, _, err = s.At("90210", date(t, "2026-11-25"))
	f, ok := fault.As(err)
	require.True(t, ok)
	require.Equal(t, fault.KindNotFound, f.Kind)
	home, at := s.Home(date(t, "2026-11-25"))
	require.True(t, home.Assumed)
	require.Equal(t, "City of Alder Bay", at.Name)
}

func TestBooksThatDisagreeAreRefused(t *testing.T) {
	for _, c := range []struct{ name, file, was, is, atFile, field string }{
		{"permit of another name", "jurisdictions.yaml", "permit: Harbor Point", "permit: Harbour Point", "jurisdictions.yaml", "postal_codes.permit"},
		{"region of another name", "jurisdictions.yaml", "region: gull-islands", "region: gulls", "jurisdictions.yaml", "postal_codes.region"},
		{"postal code without prices", "jurisdictions.yaml", `postal_code: "00030"`, `postal_code: "00031"`, "jurisdictions.yaml", "postal_codes.postal_code"},
		{"unknown jurisdiction", "jurisdictions.yaml", "jurisdiction: gull-islands", "jurisdiction: gull-island", "jurisdictions.yaml", "postal_codes[6].jurisdiction"},
		{"edition that never was", "jurisdictions.yaml", "edition: 2017", "edition: 2018", "jurisdictions.yaml", "jurisdictions[2].editions[0].edition"},
		{"dates that fall", "jurisdictions.yaml", `permits_from: "2024-07-01"`, `permits_from: "2020-07-01"`, "jurisdictions.yaml", "jurisdictions[0].editions[1].permits_from"},
		{"time zone", "jurisdictions.yaml", "America/Los_Angeles", "Pacific time", "jurisdictions.yaml", "postal_codes[0].time_zone"},
		{"unknown key", "shop.yaml", "town:", "city:", "shop.yaml", "city"},
		{"an hour of a tariff without a price", "tariffs/2-evening.yaml", "hours: 6 to 17", "hours: 7 to 17", "tariffs/2-evening.yaml", "hours"},
		{"fault in the price book", "prices/labour.yaml", `electrician: "128.00"`, `electrician: "-1"`, "prices/labour.yaml", "rates.electrician"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := folder(t)
			require.Contains(t, string(f[c.file].Data), c.was)
			f[c.file] = &fstest.MapFile{Data: bytes.Replace(f[c.file].Data, []byte(c.was), []byte(c.is), 1)}
			for _, x := range shop.Check(f) {
				if x.File == c.atFile && x.Field == c.field {
					require.Positive(t, x.Line)
					require.NotEmpty(t, x.Accepted)
					return
				}
			}
			t.Fatal(shop.Check(f))
		})
	}
	f := folder(t)
	delete(f, "jurisdictions.yaml")
	require.NotEmpty(t, shop.Check(f))
	require.NotEmpty(t, shop.Check(fstest.MapFS{}))
}

func TestTheDigestFollowsEveryByte(t *testing.T) {
	one, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	again, err := shop.Load(folder(t))
	require.NoError(t, err)
	require.Equal(t, one.Revisions, again.Revisions)
	f := folder(t)
	f["prices/book.yaml"] = &fstest.MapFile{Data: append(f["prices/book.yaml"].Data, "# a note\n"...)}
	other, err := shop.Load(f)
	require.NoError(t, err)
	require.Equal(t, one.Revisions[0], other.Revisions[0])
	require.NotEqual(t, one.Revisions[1].Digest, other.Revisions[1].Digest)
}

// Tariffs are a book of their own: no quote rests on them, and a shop may have
// none.
func TestTariffsAreABookOfTheirOwn(t *testing.T) {
	one, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	require.Len(t, one.Tariffs, 3)
	require.Len(t, one.TariffBook.Digest, 64)
	f := folder(t)
	f["tariffs/1-everyday.yaml"] = &fstest.MapFile{Data: append(f["tariffs/1-everyday.yaml"].Data, "# a note\n"...)}
	other, err := shop.Load(f)
	require.NoError(t, err)
	require.NotEqual(t, one.TariffBook.Digest, other.TariffBook.Digest)
	require.Equal(t, one.Revisions, other.Revisions, "quotes stay what they were")
	for name := range f {
		if strings.HasPrefix(name, "tariffs/") {
			delete(f, name)
		}
	}
	none, err := shop.Load(f)
	require.NoError(t, err)
	require.Empty(t, none.Tariffs)
	require.Empty(t, none.TariffBook)
}

func TestReloadKeepsTheLastGoodSet(t *testing.T) {
	k, err := shop.NewKeeper(alderbay.Files())
	require.NoError(t, err)
	first := k.Current()
	broken := folder(t)
	broken["prices/book.yaml"] = &fstest.MapFile{Data: []byte("currency: [")}
	_, err = k.Reload(broken)
	require.Error(t, err)
	require.Same(t, first, k.Current())
	second, err := k.Reload(folder(t))
	require.NoError(t, err)
	require.Same(t, second, k.Current())
	_, err = shop.NewKeeper(broken)
	require.Error(t, err)
}
