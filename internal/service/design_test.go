package service_test

import (
	"context"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/proto"
)

// job is the circuit of the easiest household: 32 A, hardwired, 25 ft indoors.
func job() *daybreakv1.CircuitJob {
	return &daybreakv1.CircuitJob{
		Edition: daybreakv1.CodeEdition_CODE_EDITION_2023, SettingAmps: 32, Volts: 240,
		Place:    daybreakv1.CircuitPlace_CIRCUIT_PLACE_GARAGE,
		Segments: []*daybreakv1.RouteSegment{{Kind: daybreakv1.SegmentKind_SEGMENT_KIND_OPEN, Feet: 25}},
	}
}

func TestSizeCircuit(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	for _, c := range []struct {
		name    string
		change  func(*daybreakv1.CircuitJob)
		breaker float64
		size    string
		method  daybreakv1.WiringMethod
	}{
		// 1.25 × 32 = 40 A; 8 AWG NM-B carries 40 A in the 60 °C column: 334.80, Table 310.16.
		{"32 A by cable", func(*daybreakv1.CircuitJob) {}, 40, "8 AWG", daybreakv1.WiringMethod_WIRING_METHOD_NM_B},
		// 1.25 × 48 = 60 A; 6 AWG NM-B has 55 A at its terminals and fails 210.19(A)(1).
		{"48 A by cable", func(j *daybreakv1.CircuitJob) {
			j.SettingAmps = 48
			j.Methods = []daybreakv1.WiringMethod{daybreakv1.WiringMethod_WIRING_METHOD_NM_B}
		}, 60, "4 AWG", daybreakv1.WiringMethod_WIRING_METHOD_NM_B},
		// 6 AWG THWN-2 has 65 A between terminals marked 75 °C.
		{"48 A in a raceway, marked 75 °C", func(j *daybreakv1.CircuitJob) {
			j.SettingAmps, j.TerminalsC = 48, proto.Float64(75)
			j.Methods = []daybreakv1.WiringMethod{daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_EMT}
		}, 60, "6 AWG", daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_EMT},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := job()
			c.change(j)
			r, err := design.SizeCircuit(context.Background(), &daybreakv1.SizeCircuitRequest{Job: j})
			require.NoError(t, err)
			d := r.GetDesign()
			require.Equal(t, daybreakv1.DesignOutcome_DESIGN_OUTCOME_DESIGNED, d.GetOutcome())
			require.Equal(t, c.breaker, d.GetBreakerAmps())
			require.Equal(t, c.size, d.GetConductors().GetSize())
			require.Equal(t, c.method, d.GetRuns()[0].GetMethod())
			require.NotEmpty(t, d.GetWorking().GetSteps())
			for _, s := range d.GetWorking().GetSteps() {
				require.NotEqual(t, s.GetRule(), s.GetSentence(), "%s has no words", s.GetRule())
			}
		})
	}
}

func TestACircuitThatIsNotServedIsAResult(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	j := job()
	j.Segments = append(j.Segments, &daybreakv1.RouteSegment{Kind: daybreakv1.SegmentKind_SEGMENT_KIND_TRENCH, Feet: 30})
	r, err := design.PriceBill(context.Background(), &daybreakv1.PriceBillRequest{Job: j, AsOfDate: "2026-11-25"})
	require.NoError(t, err)
	require.Equal(t, daybreakv1.DesignOutcome_DESIGN_OUTCOME_NOT_SERVED, r.GetDesign().GetOutcome())
	require.NotEmpty(t, r.GetDesign().GetObjections()[0].GetWhat().GetText())
	require.Nil(t, r.GetBill())
}

func TestPriceBillAddsUp(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	r, err := design.PriceBill(context.Background(), &daybreakv1.PriceBillRequest{Job: job(), PostalCode: "00010", AsOfDate: "2026-11-25"})
	require.NoError(t, err)
	b := r.GetBill()
	var lines int64
	for _, l := range b.GetLines() {
		lines += l.GetLikely().GetMinorUnits()
		require.NotEqual(t, l.GetWhy().GetKey(), l.GetWhy().GetText(), "%s has no words", l.GetWhy().GetKey())
	}
	require.Equal(t, b.GetSubtotal().GetLikely().GetMinorUnits(), lines)
	require.Equal(t, b.GetTotal().GetLikely().GetMinorUnits(), lines+b.GetPermit().GetAmount().GetMinorUnits()+b.GetTax().GetAmount().GetMinorUnits())
	require.Less(t, b.GetTotal().GetLow().GetMinorUnits(), b.GetTotal().GetLikely().GetMinorUnits())
	require.Less(t, b.GetTotal().GetLikely().GetMinorUnits(), b.GetTotal().GetHigh().GetMinorUnits())
}

func TestCalculateLoad(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	// A gas house of 2 200 ft², 200 A, AC 5 760 VA, small loads 4 200 VA, and a
	// 32 A charger: 16 680 VA and 26 280 VA by 220.83, computed by hand.
	r, err := design.CalculateLoad(context.Background(), &daybreakv1.CalculateLoadRequest{Case: &daybreakv1.LoadCase{
		Edition: daybreakv1.CodeEdition_CODE_EDITION_2023, DwellingKind: daybreakv1.DwellingKind_DWELLING_KIND_HOUSE, Volts: 240, FloorAreaSqft: 2200,
		Loads: []*daybreakv1.ApplianceLoad{
			{Kind: daybreakv1.ApplianceKind_APPLIANCE_KIND_DISHWASHER, Watts: 1200},
			{Kind: daybreakv1.ApplianceKind_APPLIANCE_KIND_DISPOSER, Watts: 700},
			{Kind: daybreakv1.ApplianceKind_APPLIANCE_KIND_MICROWAVE, Watts: 1500},
			{Kind: daybreakv1.ApplianceKind_APPLIANCE_KIND_FURNACE_FAN, Watts: 800},
		},
		HeatKind: daybreakv1.HeatKind_HEAT_KIND_FUEL, CoolWatts: 5760, ServiceAmps: 200,
		Chargers: []*daybreakv1.ChargerLoad{{SettingAmps: 32}},
	}})
	require.NoError(t, err)
	f := r.GetFinding()
	require.Equal(t, daybreakv1.Verdict_VERDICT_FITS, f.GetVerdict())
	require.Equal(t, 200.0, f.GetCapacityAmps())
	existing := f.GetMethods()[0]
	require.Equal(t, daybreakv1.LoadMethod_LOAD_METHOD_EXISTING_DWELLING, existing.GetMethod())
	require.InDelta(t, 16680, existing.GetBaseVa(), 0.5)
	require.InDelta(t, 109.5, existing.GetTotals()[0].GetAmps(), 0.05)
	require.NotEmpty(t, f.GetWorksheets())
	require.Equal(t, daybreakv1.SpacesVerdict_SPACES_VERDICT_TO_BE_SEEN, f.GetSpaces().GetVerdict())
}

func TestEstimateCharging(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	r, err := design.EstimateCharging(context.Background(), &daybreakv1.EstimateChargingRequest{Case: &daybreakv1.ChargeCase{
		Volts: 240, BreakerAmps: proto.Float64(40), SettingAmps: proto.Float64(32),
		Archetype: daybreakv1.Archetype_ARCHETYPE_CITY_HATCH.Enum(), Miles: proto.Float64(30),
	}})
	require.NoError(t, err)
	e := r.GetEstimate()
	// The car takes 30 A and 7.2 kW; the circuit would give 32 A.
	require.InDelta(t, 7.2, e.GetWallKw(), 0.001)
	require.Equal(t, daybreakv1.PowerLimit_POWER_LIMIT_ONBOARD_POWER, e.GetBindingLimit())
	require.True(t, e.GetNight().GetFits())
	require.NotNil(t, e.Hours)
}

func TestDesignRefusalsNameTheFieldOfTheRequest(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	ctx := context.Background()
	for _, c := range []struct {
		name  string
		call  func() error
		field string
	}{
		{"setting", func() error {
			j := job()
			j.SettingAmps = 200
			_, err := design.SizeCircuit(ctx, &daybreakv1.SizeCircuitRequest{Job: j})
			return err
		}, "job.setting_amps"},
		{"rating below setting", func() error {
			j := job()
			j.RatingAmps = proto.Float64(16)
			_, err := design.SizeCircuit(ctx, &daybreakv1.SizeCircuitRequest{Job: j})
			return err
		}, "job.rating_amps"},
		{"a stretch of no kind", func() error {
			j := job()
			j.Segments[0].Kind = 0
			_, err := design.SizeCircuit(ctx, &daybreakv1.SizeCircuitRequest{Job: j})
			return err
		}, "job.segments[0].kind"},
		{"a car that is not known", func() error {
			_, err := design.EstimateCharging(ctx, &daybreakv1.EstimateChargingRequest{Case: &daybreakv1.ChargeCase{Volts: 240}})
			return err
		}, "case.usable_kwh"},
		{"end before start", func() error {
			_, err := design.EstimateCharging(ctx, &daybreakv1.EstimateChargingRequest{Case: &daybreakv1.ChargeCase{
				Volts: 240, Archetype: daybreakv1.Archetype_ARCHETYPE_VAN.Enum(), FromShare: proto.Float64(0.9), ToShare: proto.Float64(0.5),
			}})
			return err
		}, "case.to_share"},
		{"a postal code of elsewhere", func() error {
			_, err := design.PriceBill(ctx, &daybreakv1.PriceBillRequest{Job: job(), PostalCode: "99999", AsOfDate: "2026-11-25"})
			return err
		}, "postal_code"},
		{"volts of another supply", func() error {
			_, err := design.CalculateLoad(ctx, &daybreakv1.CalculateLoadRequest{Case: &daybreakv1.LoadCase{
				Edition: 3, DwellingKind: 1, Volts: 208, FloorAreaSqft: 900, HeatKind: 1, ServiceAmps: 100,
				Chargers: []*daybreakv1.ChargerLoad{{SettingAmps: 16, Volts: proto.Float64(240)}},
			}})
			return err
		}, "case.chargers[0].volts"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, _, fields := told(t, c.call())
			require.Equal(t, codes.InvalidArgument, code)
			require.Equal(t, c.field, fields[0].field)
		})
	}
}

func TestCatalogue(t *testing.T) {
	catalogue := daybreakv1.NewCatalogueServiceClient(dialled(t, demoServer(t, nowhere{})))
	ctx := context.Background()
	var names []string
	token := ""
	for pages := 0; pages < 10; pages++ {
		page, err := catalogue.ListVehicles(ctx, &daybreakv1.ListVehiclesRequest{PageSize: 5, PageToken: token})
		require.NoError(t, err)
		for _, v := range page.GetVehicles() {
			names = append(names, v.GetName())
			require.NotZero(t, v.GetInlet())
		}
		if token = page.GetNextPageToken(); token == "" {
			break
		}
	}
	require.Len(t, names, 14)
	one, err := catalogue.GetVehicle(ctx, &daybreakv1.GetVehicleRequest{Name: names[0]})
	require.NoError(t, err)
	require.Equal(t, names[0], one.GetVehicle().GetName())
	_, err = catalogue.GetVehicle(ctx, &daybreakv1.GetVehicleRequest{Name: "vehicles/none"})
	code, reason, _ := told(t, err)
	require.Equal(t, codes.NotFound, code)
	require.Equal(t, "NOT_FOUND", reason)
	_, err = catalogue.ListVehicles(ctx, &daybreakv1.ListVehiclesRequest{PageToken: "made-up"})
	code, _, fields := told(t, err)
	require.Equal(t, codes.InvalidArgument, code)
	require.Equal(t, "page_token", fields[0].field)
	found, err := catalogue.SearchVehicles(ctx, &daybreakv1.SearchVehiclesRequest{Query: "pikup"})
	require.NoError(t, err)
	require.NotEmpty(t, found.GetVehicles(), "a typing error is forgiven")
	faces, err := catalogue.ListReceptacles(ctx, &daybreakv1.ListReceptaclesRequest{})
	require.NoError(t, err)
	for _, f := range faces.GetReceptacles() {
		require.NotZero(t, f.GetConfiguration(), f.GetText())
	}
	require.Len(t, faces.GetReceptacles(), len(daybreakv1.Configuration_name)-1)
}
