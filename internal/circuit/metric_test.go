package circuit_test

import (
	"math"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// metricBook is a second, deliberately different code book: square
// millimetres, no factor on continuous loads, a formula for heat, full-size
// protective conductors, its own plugs and conduit. Its figures are invented
// for the seam and stand for no standard.
type metricBook struct{ sizes []edition.Size }

var (
	metricSquares  = []float64{1.5, 2.5, 4, 6, 10, 16, 25, 35}
	metricAmps     = []unit.Amps{14, 20, 27, 36, 49, 65, 84, 104}
	metricDevices  = []unit.Amps{6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100}
	metricConduits = []struct {
		trade edition.Trade
		area  float64 // square inches
	}{{"20", 0.30}, {"25", 0.50}, {"32", 0.85}, {"40", 1.4}}
	metricSource = &working.Source{Publication: "Metric book", Section: "for the seam", Status: working.Judgement}
)

func newMetricBook() *metricBook {
	b := &metricBook{}
	for i, name := range []string{"1.5 mm²", "2.5 mm²", "4 mm²", "6 mm²", "10 mm²", "16 mm²", "25 mm²", "35 mm²"} {
		b.sizes = append(b.sizes, edition.NewSize(i+1, name))
	}
	return b
}

func says[T any](v T) edition.Cited[T] { return edition.Cited[T]{Value: v, Source: metricSource} }

func silent[T any](q string) (edition.Cited[T], error) {
	return edition.Cited[T]{}, &edition.Unanswerable{Book: "Metric book", Question: q, Why: "not in this book"}
}

func square(s edition.Size) float64 { return metricSquares[s.Rank()-1] }

func (b *metricBook) Name() string          { return "Metric book" }
func (b *metricBook) Sizes() []edition.Size { return b.sizes }
func (b *metricBook) SizeNamed(name string) (edition.Size, error) {
	for _, s := range b.sizes {
		if s.String() == name {
			return s, nil
		}
	}
	_, err := silent[edition.Size](name)
	return edition.Size{}, err
}
func (b *metricBook) TableAmpacity(s edition.Size, _ edition.Material, _ unit.Celsius) (edition.Cited[unit.Amps], error) {
	return says(metricAmps[s.Rank()-1]), nil
}
func (b *metricBook) TerminalAmpacity(w edition.Wire, _ edition.Marking, _ unit.Amps) (edition.Cited[unit.Amps], error) {
	return says(metricAmps[w.Size.Rank()-1]), nil
}
func (b *metricBook) Ampacity(w edition.Wire, s edition.Surroundings) (edition.Cited[unit.Amps], error) {
	f, err := b.AmbientFactor(70, s.Ambient)
	return says(metricAmps[w.Size.Rank()-1] * unit.Amps(f.Value)), err
}
func (b *metricBook) AmbientFactor(rating, ambient unit.Celsius) (edition.Cited[float64], error) {
	if ambient >= rating {
		return silent[float64]("heat")
	}
	return says(math.Sqrt(float64(rating-ambient) / float64(rating-30))), nil
}
func (b *metricBook) AdjustmentFactor(n int) (edition.Cited[float64], error) {
	return says(1 / math.Sqrt(math.Max(1, float64(n)/2))), nil
}
func (b *metricBook) RooftopAmbient(c unit.Celsius, _ unit.Inches) (edition.Cited[unit.Celsius], error) {
	return says(c + 20), nil
}
func (b *metricBook) MethodSizes(edition.Method, edition.Material) (edition.Cited[edition.SizeRange], error) {
	return says(edition.SizeRange{Smallest: b.sizes[1]}), nil
}
func (b *metricBook) Impedance(w edition.Wire, _ edition.Raceway, _ edition.PowerFactor) (edition.Cited[edition.OhmsPer1000Feet], error) {
	const ohmSquareMillimetrePerMetre = 0.0225
	return says(edition.OhmsPer1000Feet(1000 * unit.MetresPerFoot * ohmSquareMillimetrePerMetre / square(w.Size))), nil
}
func (b *metricBook) DropAdvice() edition.Cited[edition.DropAdvice] {
	return says(edition.DropAdvice{BranchPercent: 5, TotalPercent: 5})
}
func (b *metricBook) Area(s edition.Size) (edition.Cited[edition.CircularMils], error) {
	return says(edition.CircularMils(1973.525 * square(s))), nil
}
func (b *metricBook) NextDevice(a unit.Amps) (edition.Cited[unit.Amps], error) {
	for _, d := range metricDevices {
		if d >= a {
			return says(d), nil
		}
	}
	return silent[unit.Amps]("device")
}

// LargestDevice has no next size up: the device never exceeds the conductor.
func (b *metricBook) LargestDevice(_ edition.Size, _ edition.Material, a unit.Amps) (edition.Cited[unit.Amps], error) {
	largest := unit.Amps(0)
	for _, d := range metricDevices {
		if d <= a {
			largest = d
		}
	}
	return says(largest), nil
}
func (b *metricBook) ContinuousFactor() edition.Cited[float64] { return says(1.0) }
func (b *metricBook) ReceptacleFits(r, d unit.Amps) edition.Cited[bool] {
	return says(r >= d)
}
func (b *metricBook) SharedReceptacleFits(r, d unit.Amps) edition.Cited[bool] { return says(r >= d) }
func (b *metricBook) ReceptacleShare() edition.Cited[float64]                 { return says(1.0) }

// GroundingConductor is as thick as the conductors, whatever the device.
func (b *metricBook) GroundingConductor(d unit.Amps, _ edition.Material) (edition.Cited[edition.Size], error) {
	for i, a := range metricAmps {
		if a >= d {
			return says(b.sizes[i]), nil
		}
	}
	return silent[edition.Size]("protective conductor")
}
func (b *metricBook) GroundingIncreased(_ unit.Amps, _ edition.Material, _, installed edition.Size) (edition.Cited[edition.IncreasedGround], error) {
	return says(edition.IncreasedGround{Size: installed}), nil
}
func (b *metricBook) CableGround(_ edition.Method, s edition.Size) (edition.Cited[edition.Size], error) {
	return says(s), nil
}
func (b *metricBook) ElectrodeConductor(edition.Size, edition.Material) (edition.Cited[edition.ElectrodeSizes], error) {
	return silent[edition.ElectrodeSizes]("electrode")
}
func (b *metricBook) RacewayFor(_ edition.Raceway, c edition.Contents) (edition.Cited[edition.Filled], error) {
	sum := 0.0
	for _, p := range c.Pulls {
		if p.Count > 0 {
			sum += float64(p.Count) * square(p.Size) * 2.5 / 645.16
		}
	}
	for _, r := range metricConduits {
		if sum <= 0.45*r.area {
			return says(edition.Filled{Trade: r.trade, FillPercent: 100 * sum / r.area}), nil
		}
	}
	return silent[edition.Filled]("conduit")
}
func (b *metricBook) RacewayCount(edition.Raceway, edition.Trade, edition.Method, edition.Size) (edition.Cited[int], error) {
	return silent[int]("count")
}
func (b *metricBook) SleeveFor(edition.Method, edition.Size, int) (edition.Cited[edition.Trade], error) {
	return says(edition.Trade("32")), nil
}
func (b *metricBook) BoxFill(edition.BoxContents) (edition.Cited[edition.CubicInches], error) {
	return silent[edition.CubicInches]("box")
}
func (b *metricBook) BoxFor(edition.CubicInches) (edition.Cited[edition.Box], error) {
	return silent[edition.Box]("box")
}
func (b *metricBook) Supports(edition.Method, edition.Raceway, edition.Trade) (edition.Cited[edition.Supports], error) {
	return says(edition.Supports{Spacing: 2, FromBox: 6}), nil
}
func (b *metricBook) FitIn(m edition.Method, _ edition.Raceway, r edition.Run) edition.Cited[edition.Fitness] {
	if m.Cable() && r == edition.OutdoorWall {
		return says(edition.Unfit)
	}
	return says(edition.Fit)
}
func (b *metricBook) CoverDepth(edition.Burial, edition.BuriedWiring) (edition.Cited[edition.Cover], error) {
	return says(edition.Cover{Inches: 24}), nil
}
func (b *metricBook) Supplies() edition.Cited[int] { return says(3) }
func (b *metricBook) StructureDisconnect(edition.Supply) edition.Cited[unit.Amps] {
	return says(unit.Amps(40))
}
func (b *metricBook) StructureRods(edition.Supply) edition.Cited[int] { return says(1) }
func (b *metricBook) RodConductor() edition.Cited[edition.Size]       { return says(b.sizes[4]) }
func (b *metricBook) EmergingHeight() edition.Cited[unit.Feet]        { return says(unit.Feet(6)) }
func (b *metricBook) EmergingDepth() edition.Cited[unit.Inches]       { return says(unit.Inches(12)) }
func (b *metricBook) Bends() edition.Cited[float64]                   { return says(180.0) }
func (b *metricBook) SettingCounts(edition.SettingMeans, edition.Fastening) edition.Cited[bool] {
	return says(true)
}
func (b *metricBook) ChargerLoad(v unit.VoltAmps) edition.Cited[unit.VoltAmps] { return says(v) }
func (b *metricBook) UnknownChargerLoad() (edition.Cited[unit.VoltAmps], error) {
	return silent[unit.VoltAmps]("load")
}
func (b *metricBook) IndividualCircuit(unit.Amps, unit.Volts) edition.Cited[bool] { return says(true) }

// GroundFault is silent on plugs, so the designer must take the safer reading.
func (b *metricBook) GroundFault(_ edition.Place, c edition.Connection, _ unit.Amps) (edition.Cited[edition.Requirement], error) {
	if c == edition.PlugIn {
		return silent[edition.Requirement]("plugs")
	}
	return says(edition.Required), nil
}
func (b *metricBook) Disconnect(edition.Connection, unit.Amps) edition.Cited[bool] {
	return says(true)
}
func (b *metricBook) CouplerHeight(edition.Place) edition.Cited[unit.Inches] {
	return says(unit.Inches(20))
}
func (b *metricBook) TamperResistant(unit.Amps) edition.Cited[bool]  { return says(true) }
func (b *metricBook) WeatherResistant(unit.Amps) edition.Cited[bool] { return says(true) }
func (b *metricBook) PlugInLimit() edition.Cited[unit.Amps]          { return says(unit.Amps(32)) }
func (b *metricBook) SmallestSetting() edition.Cited[unit.Amps]      { return says(unit.Amps(6)) }
func (b *metricBook) Faces() []edition.Cited[edition.Face] {
	return []edition.Cited[edition.Face]{says(edition.Face{Config: "blue 32", Amps: 32, Volts: 240, Ground: true, New: true})}
}

func TestASecondBookDesignsWithoutTouchingTheDesigner(t *testing.T) {
	b := newMetricBook()
	job := plainJob(32)
	var sheet working.Sheet
	r, err := circuit.Design(b, job, &sheet)
	require.NoError(t, err)
	require.Equal(t, circuit.Designed, r.Outcome)
	require.EqualValues(t, 32, r.Device, "no factor on continuous loads")
	require.Equal(t, "6 mm²", r.Chosen.Parts[0].Hot.String())
	require.Equal(t, "6 mm²", r.Chosen.Parts[0].Ground.String())
	require.True(t, r.Disconnect)
	for _, s := range sheet.Steps {
		require.Equal(t, "Metric book", s.Source.Publication, "every answer is the book's")
	}
	job.Ambient = 45
	r, err = circuit.Design(b, job, nil)
	require.NoError(t, err)
	require.Equal(t, "10 mm²", r.Chosen.Parts[0].Hot.String(), "its own factor for heat")

	job.Ambient, job.Connection, job.Methods = 30, circuit.WantReceptacle, circuit.UseEMT
	r, err = circuit.Design(b, job, nil)
	require.NoError(t, err)
	require.Equal(t, "blue 32", r.Receptacle.Config)
	require.EqualValues(t, "20", r.Chosen.Parts[0].Trade)
	require.True(t, r.GFCI, "the book is silent on plugs: the safer reading")
	require.Equal(t, edition.AskAHJ, r.GroundFault.Value)

	a, err := circuit.Allowed(b, circuit.Existing{Device: 32, Receptacle: "blue 32"}, nil)
	require.NoError(t, err)
	require.EqualValues(t, 32, a.Setting)
}
